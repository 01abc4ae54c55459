import { join } from 'node:path';
import { afterAll, afterEach, beforeAll, beforeEach, expect, test } from '@jest/globals';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import type { Browser, Page } from 'playwright-core';
import { Api } from '../support/api.js';
import { describeInBrowser, openBrowser } from '../support/browser.js';
import { PASSWORD } from '../support/page-fleet.js';
import { makePlanFleet, type PlanFleet } from '../support/plan-fleet.js';
import { startTestApp } from '../support/test-app.js';
import { violationsInBothThemes } from '../support/violations.js';
import { goTo, openPage, signIn } from '../support/visit.js';

let app: NestFastifyApplication;
let browser: Browser;
let fleet: PlanFleet;
let page: Page;
let complaints: string[];

beforeAll(async () => {
  app = await startTestApp(join(import.meta.dirname, '../../dist/web'));
  fleet = await makePlanFleet(app, new Date());
  browser = await openBrowser();
}, 120_000);
afterAll(async () => {
  await browser?.close();
  await app?.close();
});
beforeEach(async () => {
  ({ page, complaints } = await openPage(browser, Api.of(app).address));
});
afterEach(async () => {
  await page.context().close();
  expect(complaints).toEqual([]);
});

const heading = (name: string | RegExp) => page.getByRole('heading', { level: 1, name }).waitFor();
const button = (name: string | RegExp) => page.getByRole('button', { name });
const dialog = () => page.getByRole('dialog');
const block = (name: string) => page.locator('.block', { has: page.getByRole('heading', { name, exact: true }) });

/** Somebody reports the job that waits, from a device that was without signal. */
async function report(email: string, minutes: number): Promise<void> {
  const api = await Api.of(app).signIn(email, PASSWORD);
  const path = `/api/jobs/${fleet.openJobId}`;
  const { body: job } = await api.get(path).expect(200);
  const finished = Date.now() - 3_600_000;
  const sheet = {
    id: crypto.randomUUID(),
    offline: true,
    startedAt: new Date(finished - minutes * 60_000).toISOString(),
    finishedAt: new Date(finished).toISOString(),
    minutes,
    outcome: 'finished',
    tasks: [{ taskId: job.taskList[0].id, outcome: 'done' }],
    note: `It took ${minutes} minutes`,
    signedBy: 'M. Soto',
  };
  await api.post(`${path}/reports`, sheet).expect(201);
}

describeInBrowser('a breakdown', () => {
  test('is reported in plain words, taken, helped by telephone and over', async () => {
    await signIn(page, 'manager@example.org');
    await page.goto(`/skids/${fleet.skid.id}`);
    await page.getByRole('link', { name: 'Report a breakdown' }).click();
    await heading('Report a breakdown at Elm 1');
    await button('Report it').click();
    await page.getByRole('group', { name: '2 answers need a change' }).waitFor();
    await page.getByRole('radio', { name: /^No water/ }).check();
    await page.getByLabel('What is wrong, in a few words').fill('Feed pump does not start');
    await button('Report it').click();
    await heading(/^Job \d+: Feed pump does not start/);

    await button('I take it').click();
    await page.getByText(/^Ada Brisk, /).waitFor();
    expect(await button('I take it').count()).toBe(0);

    await page.getByText('Write down help by telephone').click();
    await page.getByLabel('What was said and done').fill('Reset the motor protection; it runs');
    await page.getByLabel('Is it over?').selectOption({ label: 'Yes, ended by telephone' });
    await block('Help by telephone').getByLabel('Mechanism of the failure').selectOption('2.7');
    await button('Write it down').click();
    await block('What is known').getByText('help by telephone', { exact: true }).waitFor();
    await block('What is known').getByText('Overheating (2.7)').waitFor();
    await block('Help by telephone')
      .getByText(/Ada Brisk: Reset the motor protection; it runs/)
      .waitFor();
    expect(await violationsInBothThemes(page)).toEqual([]);

    await goTo(page, 'Breakdowns');
    const row = page.getByRole('row', { name: /Feed pump does not start/ });
    expect(await row.textContent()).toMatch(/No water.*Ada Brisk.*Finished/);
    await page.getByLabel('Show').selectOption({ label: 'Open' });
    await page.getByText('No breakdown is open.').waitFor();
  });
});

describeInBrowser('a job', () => {
  test('is made by hand, waits for something that is said, is found so, and dropped with a reason', async () => {
    await signIn(page, 'manager@example.org');
    await page.goto(`/skids/${fleet.skid.id}/new-job`);
    await button('Make the job').click();
    await page.getByRole('group', { name: 'One answer needs a change' }).waitFor();
    await page.getByLabel('Tasks').fill('Replace the drain hose\nTighten the clamps');
    await page.getByLabel('Title').fill('Leak at the drain');
    await button('Make the job').click();
    await heading(/^Job \d+: Leak at the drain/);
    expect(await page.getByRole('table', { name: 'Tasks' }).locator('tbody tr').count()).toBe(2);

    await button('Let it wait').click();
    await dialog().getByRole('button', { name: 'Let it wait' }).click();
    await dialog().getByRole('group', { name: 'One answer needs a change' }).waitFor();
    await dialog().getByLabel('What it waits for').fill('A hose of 2 m');
    await dialog().getByRole('button', { name: 'Let it wait' }).click();
    await dialog().waitFor({ state: 'detached' });

    await goTo(page, 'Jobs');
    await page.getByLabel('State').selectOption({ label: 'Waiting' });
    await page.getByText('A hose of 2 m').waitFor();
    await page.getByRole('link', { name: 'Leak at the drain' }).click();
    await button('Drop it').click();
    await dialog().getByLabel('Why it is dropped').fill('The client mended it');
    await dialog().getByRole('button', { name: 'Drop it' }).click();
    await dialog().waitFor({ state: 'detached' });
    await page.getByRole('table', { name: 'What changed' }).getByText('The client mended it').waitFor();
    expect(await button('Begin').count()).toBe(0);
  });

  test('keeps notes and photographs', async () => {
    await signIn(page, 'manager@example.org');
    await page.goto(`/jobs/${fleet.openJobId}`);
    await page.getByText('Add a note').click();
    await page.getByLabel('Note', { exact: true }).fill('The gauge sticks at 2 bar');
    await page.getByLabel('The client reads it too').check();
    await button('Add it').click();
    await page.getByText(/Ada Brisk · .* · the client reads it/).waitFor();
    const file = page.getByLabel('Add a photograph');
    await file.setInputFiles({ name: 'notes.txt', mimeType: 'text/plain', buffer: Buffer.from('no picture') });
    await block('Photographs').getByRole('alert').waitFor();
    const picture = Buffer.from('iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mNk+M9QDwADhgGAWjR9awAAAABJRU5ErkJggg==', 'base64');
    await file.setInputFiles({ name: 'gauge.png', mimeType: 'image/png', buffer: picture });
    await page.getByRole('link', { name: 'gauge.png' }).waitFor();
    expect(await block('Photographs').getByRole('alert').count()).toBe(0);
    expect(await page.evaluate("document.querySelector('img.thumb').decode().then(() => true)")).toBe(true);
  });

  test('that two people reported is settled by the manager, who sees both side by side', async () => {
    await report('jo@example.org', 40);
    await report('kim@example.org', 55);
    await signIn(page, 'manager@example.org');
    await goTo(page, 'Jobs');
    await page.getByText('1 report to settle').waitFor();
    await page.getByRole('link', { name: 'Replace the gauge' }).click();
    const settling = block('Two people reported this job');
    await settling.getByRole('article', { name: 'The first report' }).getByText('It took 40 minutes').waitFor();
    await settling.getByRole('article', { name: 'The second report' }).getByText('It took 55 minutes').waitFor();
    expect(await violationsInBothThemes(page)).toEqual([]);
    await button('Take the second').click();
    await dialog().getByLabel('Why').fill('Kim was there until the end');
    await dialog().getByRole('button', { name: 'Take the second' }).click();
    await settling.waitFor({ state: 'detached' });
    await page.getByRole('article', { name: 'Report by Jo Fell' }).getByText('set aside').waitFor();
    await page.getByRole('article', { name: 'Report by Kim Ash' }).getByText('counts').waitFor();
  });
});
