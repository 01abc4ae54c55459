import { join } from 'node:path';
import { afterAll, afterEach, beforeAll, beforeEach, expect, test } from '@jest/globals';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import type { Browser, Page } from 'playwright-core';
import { Api } from '../support/api.js';
import { describeInBrowser, openBrowser } from '../support/browser.js';
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

describeInBrowser('a visit', () => {
  test('is planned from the due list in three presses, shifted once what follows was seen, promised, and shifted again with a reason', async () => {
    await signIn(page, 'manager@example.org');
    await goTo(page, 'Due list');
    await page.getByRole('checkbox', { name: /Recovery clean/ }).check();
    await button('Plan a visit').click();
    await dialog().getByText('nothing else that day').first().waitFor();
    expect(await violationsInBothThemes(page)).toEqual([]);
    await dialog().getByRole('button', { name: 'Plan the visit' }).click();
    await page.getByText(/^Visit \d+ to Elm site is planned/).waitFor();
    // The line stays until the work is done; a job holds it now, so that nobody plans it twice.
    await page.getByRole('link', { name: /^in job \d+$/ }).waitFor();
    expect(await page.getByRole('checkbox', { name: /Recovery clean/ }).count()).toBe(0);

    await page.getByRole('link', { name: 'Open the visit' }).click();
    await heading(/^Visit \d+, /);
    await button('Shift').click();
    await dialog().getByText('Nothing is changed yet.').waitFor();
    await dialog().getByLabel('Start').fill('23:00');
    await dialog().getByText('What speaks against it').waitFor();
    expect(await violationsInBothThemes(page)).toEqual([]);
    await dialog().getByLabel('Start').fill('10:00');
    await dialog().getByRole('button', { name: 'Shift the visit' }).click();
    await page.getByText(/08:00 → .*10:00/).waitFor();

    await button('Promise to the client').click();
    await dialog().getByRole('button', { name: 'Promise it' }).click();
    await page
      .getByText(/^client told on /)
      .first()
      .waitFor();

    await button('Shift').click();
    await dialog().getByLabel('Start').fill('13:00');
    await dialog().getByRole('button', { name: 'Shift the visit' }).click();
    await dialog().getByRole('group', { name: 'One answer needs a change' }).waitFor();
    await dialog().getByLabel('What the client is told').fill('The pump comes with the noon ferry');
    await dialog().getByRole('button', { name: 'Shift the visit' }).click();
    await dialog().waitFor({ state: 'detached' });
    await page.getByRole('table', { name: 'What changed' }).getByText('The pump comes with the noon ferry').waitFor();
    expect(await violationsInBothThemes(page)).toEqual([]);
  }, 60_000);

  test('goes to one site', async () => {
    await signIn(page, 'manager@example.org');
    await goTo(page, 'Visits');
    await page
      .getByRole('checkbox', { name: /^Job \d+$/ })
      .first()
      .check();
    await page.getByText('1 chosen, at Oak site.').waitFor();
    await goTo(page, 'Due list');
    expect(await button('Plan a visit').isDisabled()).toBe(true);
  });

  test('takes work in and gives it back', async () => {
    await signIn(page, 'manager@example.org');
    await page.goto(`/visits/${fleet.visitId}`);
    await button('Add work at this site').click();
    await dialog()
      .getByRole('checkbox', { name: /Replace the gauge/ })
      .check();
    await dialog().getByRole('button', { name: 'Add the chosen' }).click();
    const row = page.getByRole('row', { name: /Replace the gauge/ }).first();
    await row.getByRole('button', { name: /^Take out/ }).click();
    await page.getByText(/taken out: job \d+ Replace the gauge/).waitFor();
    expect(await page.getByRole('link', { name: 'Replace the gauge' }).count()).toBe(0);
  });

  test('says what to take along, on paper too', async () => {
    await signIn(page, 'jo@example.org');
    await page.goto(`/visits/${fleet.visitId}/kit`);
    await page.getByRole('row', { name: /Bearing grease/ }).waitFor();
    await page.emulateMedia({ media: 'print' });
    expect(await button('Print').isVisible()).toBe(false);
    expect(await page.getByRole('columnheader', { name: 'Taken' }).isVisible()).toBe(true);
  });

  test('is found in its week, and by whoever goes', async () => {
    await signIn(page, 'jo@example.org');
    await goTo(page, 'Visits');
    await page.getByRole('link', { name: /^Oak site/ }).waitFor();
    await page.getByLabel('Technician').selectOption({ label: 'Jo Fell' });
    await page.getByRole('link', { name: /^Oak site/ }).waitFor();
    await button('Next week').click();
    await page.getByRole('button', { name: 'This week' }).click();
    await page.getByRole('link', { name: /^Oak site/ }).click();
    await heading(/^Visit \d+, /);
    expect(await button('Shift').count()).toBe(0);
  });
});
