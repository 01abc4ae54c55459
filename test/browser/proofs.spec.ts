import { randomUUID } from 'node:crypto';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from '@jest/globals';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import type { Browser, Page } from 'playwright-core';
import { Database } from '../../src/app/index.js';
import { Api } from '../support/api.js';
import { describeInBrowser, openBrowser } from '../support/browser.js';
import { makePageFleet } from '../support/page-fleet.js';
import { startTestApp } from '../support/test-app.js';
import { violationsInBothThemes } from '../support/violations.js';
import { openPage, signIn } from '../support/visit.js';

let app: NestFastifyApplication;
let browser: Browser;
let address: string;
let skid: { id: string };

beforeAll(async () => {
  app = await startTestApp(join(import.meta.dirname, '../../dist/web'));
  address = Api.of(app).address;
  skid = (await makePageFleet(app, new Date())).skid;
  const { prisma } = app.get(Database);
  const { clientId } = await prisma.skid.findUniqueOrThrow({ where: { id: skid.id } });
  const position = { clientId, skidId: skid.id };
  await prisma.position.create({ data: { ...position, kind: 'module', name: 'Test module' } });
  await prisma.position.create({ data: { ...position, kind: 'transmitter', name: 'Test gauge', signal: 'feed_pressure' } });
  browser = await openBrowser();
}, 120_000);
afterAll(async () => {
  await browser?.close();
  await app?.close();
});

/** Opens one of the forms of the skid page, and answers where it is. */
async function openForm(page: Page, name: string) {
  const form = page.locator('details').filter({ has: page.locator('summary', { hasText: name }) });
  await form.locator('summary').click();
  await form.locator('form').waitFor();
  return {
    form,
    fill: async (values: Readonly<Record<string, string>>) => {
      for (const [label, value] of Object.entries(values)) await form.getByLabel(label).first().fill(value);
    },
    save: (button = 'Write it down') => form.getByRole('button', { name: button }).click(),
  };
}

describeInBrowser('the forms of proof on the skid page', () => {
  test('show their cautions first, and say what came out in words', async () => {
    const { page, complaints } = await openPage(browser, address);
    await signIn(page, 'manager@example.org');
    await page.goto(`/skids/${skid.id}`);
    const setup = await openForm(page, 'What tests are judged with');
    await setup.fill({ 'Highest test pressure': '2', 'Log removal to be proved': '4', 'Design filtrate flow': '60' });
    await setup.fill({ 'Hold-up volume': '250', 'Highest transmembrane': '1', 'Fibres in a module': '9000' });
    await setup.save('Save');
    await setup.form.getByText('Saved.').waitFor();
    expect(await setup.form.getByLabel('Highest test pressure').inputValue()).toBe('2');

    const decay = await openForm(page, 'Record an integrity test');
    await decay.form.getByText('over 2 bar').waitFor();
    await decay.save();
    await decay.form.getByText('answers need a change').waitFor();
    await decay.fill({ 'Settled before': '5', 'Pressure at the start': '1.5', 'Pressure at the end': '1.1', 'Length of the test': '10', 'Water temp': '12' });
    await decay.save();
    await decay.form.getByText('The test failed. Keep the water of this unit from supply.').waitFor();
    await decay.form.getByText('What your local regulator asks for').waitFor();

    const repair = await openForm(page, 'Record closed fibres');
    await repair.form.getByLabel('Module').selectOption({ label: 'Test module' });
    await repair.fill({ 'Fibres closed now': '12' });
    await repair.save();
    await repair.form.getByText('12 fibres closed in Test module.').waitFor();

    const calibration = await openForm(page, 'Record a calibration');
    await calibration.form.getByLabel('Instrument', { exact: true }).selectOption({ label: 'Test gauge' });
    await calibration.fill({
      Tolerance: '0.05',
      'Reference instrument': 'Reference gauge',
      'Reference, bar': '1',
      'As found, bar': '1.2',
      'As left, bar': '1.01',
    });
    await calibration.form.getByText('Off by 0.2 bar: out of tolerance').waitFor();
    await calibration.save();
    await calibration.form.getByText('As found: out of tolerance, off by 0.2 bar at worst. As left: in tolerance.').waitFor();

    expect(await violationsInBothThemes(page)).toEqual([]);
    expect(complaints.filter((complaint) => !complaint.includes('404'))).toEqual([]);
    await page.context().close();
  }, 120_000);

  test('can be used by everybody on a phone', async () => {
    const { page } = await openPage(browser, address, { width: 390 });
    await signIn(page, 'manager@example.org');
    await page.goto(`/skids/${skid.id}`);
    for (const name of ['What tests are judged with', 'Record an integrity test', 'Record closed fibres', 'Record a calibration']) await openForm(page, name);
    expect(await violationsInBothThemes(page)).toEqual([]);
    expect(await page.evaluate('document.documentElement.scrollWidth - document.documentElement.clientWidth')).toBe(0);
    await page.context().close();
  }, 60_000);

  test('ask a transmitter alone what it measures', async () => {
    const { page } = await openPage(browser, address);
    await signIn(page, 'manager@example.org');
    await page.goto(`/registry/skids/${skid.id}`);
    await page.getByText('Test gauge (transmitter), Feed pressure').click();
    const gauge = page.locator('details').filter({ hasText: 'Test gauge (transmitter)' });
    expect(await gauge.getByLabel('What it measures').inputValue()).toBe('feed_pressure');
    await gauge.getByLabel('Kind').selectOption('valve');
    expect(await gauge.getByLabel('What it measures').count()).toBe(0);
    await page.context().close();
  });
});

describeInBrowser('a job sheet that is held', () => {
  test('is corrected by the manager, with what is wrong beside its field, and counts then', async () => {
    const { page } = await openPage(browser, address, { width: 390 });
    await signIn(page, 'manager@example.org');
    const post = async (path: string, data: object) => {
      const headers = { origin: address, 'idempotency-key': randomUUID() };
      return (await page.request.post(`${address}${path}`, { data, headers })).json() as Promise<{ id: string; state: string }>;
    };
    const job = await post('/api/jobs', { skidId: skid.id, tasks: [{ task: 'Look at the pump' }] });
    const times = { startedAt: '2025-11-20T07:00:00Z', finishedAt: '2025-11-20T08:00:00Z', minutes: 60 };
    const sheet = { ...times, id: randomUUID(), offline: true, outcome: 'finished', tasks: [], note: 'Wet floor', signedBy: '' };
    expect((await post(`/api/jobs/${job.id}/reports`, sheet)).state).toBe('held');
    await page.goto(`/jobs/${job.id}`);
    await page.getByRole('link', { name: 'Correct the held sheet' }).click();
    await page.locator('.trouble').getByText('the sheet is not signed').waitFor();
    expect(await page.getByLabel('Signed by').getAttribute('aria-invalid')).toBe('true');
    expect(await page.getByLabel('Note on the job').inputValue()).toBe('Wet floor');
    expect(await violationsInBothThemes(page)).toEqual([]);
    await page.getByRole('radio', { name: 'Done', exact: true }).check();
    await page.getByLabel('Signed by').fill('M. Example');
    await page.getByRole('button', { name: 'Send it again' }).click();
    await page.waitForURL(`**/jobs/${job.id}`);
    await page.getByText('Wet floor').waitFor();
    const { state } = (await (await page.request.get(`${address}/api/jobs/${job.id}`)).json()) as { state: string };
    expect(state).toBe('finished');
    await page.context().close();
  }, 60_000);
});
