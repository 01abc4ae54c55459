import { join } from 'node:path';
import { afterAll, afterEach, beforeAll, beforeEach, expect, test } from '@jest/globals';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import type { Browser, Page } from 'playwright-core';
import { Database } from '../../src/app/index.js';
import { Api } from '../support/api.js';
import { describeInBrowser, openBrowser } from '../support/browser.js';
import { makePlanFleet, type PlanFleet } from '../support/plan-fleet.js';
import { makeRecords } from '../support/records-of-client.js';
import { startTestApp } from '../support/test-app.js';
import { violationsInBothThemes } from '../support/violations.js';
import { goTo, openPage, signIn } from '../support/visit.js';

const DAY_MS = 86_400_000;
const PICTURE = Buffer.from('iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mNkM+D5DwADGAGAWjR9awAAAABJRU5ErkJggg==', 'base64');

let app: NestFastifyApplication;
let browser: Browser;
let fleet: PlanFleet;
let page: Page;
let complaints: string[];

/** What the department alone may know, and what belongs to the other client of the fleet. */
const SECRET = /Oak|Spare seal in the van|EUR|Bearing grease/;

beforeAll(async () => {
  app = await startTestApp(join(import.meta.dirname, '../../dist/web'));
  const now = new Date();
  fleet = await makePlanFleet(app, now);
  const { prisma } = app.get(Database);
  const { clientId, siteId } = fleet.skid;
  const item = await prisma.item.create({ data: { code: 'SEAL-1', name: 'Shaft seal', kind: 'seal' } });
  await makeRecords(app, fleet.skid, 'Elm', item.id);
  const onDay = new Date(new Date(now.getTime() + 3 * DAY_MS).toISOString().slice(0, 10));
  const visit = { clientId, siteId, onDay, startTime: '08:30', minutes: 60, state: 'promised', promisedAt: now, createdBy: 'test' };
  const { id } = await prisma.visit.create({ data: { ...visit, note: 'Spare seal in the van', noteToClient: 'We need the key of the pump house' } });
  await prisma.job.create({
    data: { clientId, siteId, skidId: fleet.skid.id, kind: 'service', title: 'Change the cartridges', visitId: id, createdBy: 'test' },
  });
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
const settled = () => page.locator('.hold').first().waitFor({ state: 'detached' });
const shown = () => page.locator('main').textContent();
const block = (name: string) => page.locator('.block', { has: page.getByRole('heading', { name, exact: true }) });

describeInBrowser('a client', () => {
  test('reads at once how each skid is, what water it made and on what that rests, and who comes next', async () => {
    await signIn(page, 'client@example.org');
    await heading('My skids');
    const skids = page.getByRole('table', { name: 'Skids at Elm site' });
    const row = await skids.getByRole('row', { name: /Elm 1/ }).textContent();
    expect(row).toMatch(/A breakdown is open: no water\./);
    expect(row).toMatch(/[\d,]+ m³/);
    const other = await skids.getByRole('row', { name: /Elm 2/ }).textContent();
    expect(other).toMatch(/No reading has come in yet, so we cannot say how it is/);
    expect(other).toMatch(/no readings/);
    const text = await shown();
    expect(text).toMatch(/08:30/);
    expect(text).toMatch(/We need the key of the pump house/);
    expect(text).toMatch(/Elm 1: Change the cartridges/);
    expect(text).toMatch(/Elm pump stopped/);
    expect(text).not.toMatch(SECRET);
    expect(await page.getByRole('link', { name: 'Open the report' }).getAttribute('href')).toMatch(/^\/api\/clients\/.*\/report\.pdf\?from=/);
  });

  test('says of a day that was proposed that it does not suit, and which would; and then that it does', async () => {
    await signIn(page, 'client@example.org');
    const asked = block('Does this day suit you?');
    await asked.getByText('Elm proposal').waitFor();
    await asked.getByRole('button', { name: /^It does not suit/ }).click();
    const dialog = page.getByRole('dialog');
    await dialog.getByRole('button', { name: 'Tell the department' }).click();
    await dialog.getByRole('link', { name: 'Say why the day does not suit' }).waitFor();
    expect(await violationsInBothThemes(page)).toEqual([]);
    await dialog.getByLabel('Why').fill('The line stands still');
    await dialog.getByLabel(/second choice/).fill('2100-01-05');
    await dialog.getByRole('button', { name: 'Tell the department' }).click();
    await asked.getByText(/said that it does not suit: The line stands still/).waitFor();
    await asked.getByText(/Would suit: 5 Jan 2100/).waitFor();
    await asked.getByRole('button', { name: /^It suits/ }).click();
    await dialog.getByRole('button', { name: 'It suits' }).click();
    await asked.getByText(/said that it suits/).waitFor();
    expect(await asked.getByRole('button', { name: /^It suits/ }).count()).toBe(0);
  });

  test('narrows the history of a skid by kind and period, and finds it so again', async () => {
    await signIn(page, 'client@example.org');
    await page.getByRole('link', { name: 'Elm 1' }).click();
    await page.getByRole('link', { name: 'Service history' }).click();
    await heading('Service history of Elm 1');
    await page.getByText(/^\d+ entries: Everything/).waitFor();
    await page.getByLabel('Show').selectOption({ label: 'Integrity of the fibres' });
    await page.getByText(/^2 entries: Integrity of the fibres/).waitFor();
    expect(await page.locator('tbody').textContent()).toMatch(/Pressure-decay test: passed/);
    await page.getByLabel('Show').selectOption({ label: 'Work' });
    await page.getByText('70 entries: Work, the latest first. Page 1 of 2 of the list.').waitFor();
    await page.getByRole('button', { name: 'Next page' }).click();
    await page.getByText(/Page 2 of 2 of the list/).waitFor();
    await page.getByLabel('From', { exact: true }).fill('2001-01-01');
    await page.getByLabel('To', { exact: true }).fill('2001-12-31');
    await page.getByText('No entries match.').waitFor();
    await page.reload();
    await page.getByText('0 entries: Work from 1 Jan 2001 to 31 Dec 2001, the latest first.').waitFor();
    expect(await page.getByRole('link', { name: 'Report of this period, as PDF' }).getAttribute('href')).toContain('from=2001-01-01&to=2001-12-31');
    await page.getByLabel('Show').selectOption({ label: 'Breakdowns' });
    await page.getByLabel('From', { exact: true }).fill('');
    await page.getByLabel('To', { exact: true }).fill('');
    await page.getByRole('link', { name: 'Elm pump stopped' }).click();
    await heading('Elm pump stopped');
  });

  test('reads figures of reliability when they ask for them, each with what it was counted from', async () => {
    await signIn(page, 'client@example.org');
    await page.goto(`/skids/${fleet.skid.id}`);
    await page.getByRole('button', { name: 'Show the figures of the last twelve months' }).click();
    const figures = block('How reliable it was');
    await figures.getByRole('table').waitFor();
    const text = await figures.textContent();
    expect(text).toMatch(/Availability/);
    expect(text).not.toMatch(/backlog/i);
  });

  test('asks for something with a photograph, and follows what becomes of it', async () => {
    await signIn(page, 'client@example.org');
    await page.goto(`/skids/${fleet.skid.id}`);
    await page.getByRole('link', { name: 'Ask for something' }).click();
    await heading('Ask for something');
    await page.getByRole('button', { name: 'Send' }).click();
    await page.getByRole('group', { name: '2 answers need a change' }).waitFor();
    await page.getByRole('option', { name: 'Elm 1' }).waitFor({ state: 'attached' });
    expect(await page.getByLabel('Which skid').inputValue()).toBe(fleet.skid.id);
    await page.getByLabel('In a few words').fill('The pump hums');
    await page.getByLabel('What do you see').fill('Since Monday, louder at night');
    await page.getByLabel('Photographs').setInputFiles({ name: 'pump.png', mimeType: 'image/png', buffer: PICTURE });
    await page.getByRole('button', { name: 'Send' }).click();
    await heading('The pump hums');
    await page.getByText('Since Monday, louder at night').waitFor();
    await block('Photographs').getByRole('link').first().waitFor();

    const { prisma } = app.get(Database);
    const job = await prisma.job.findFirstOrThrow({ where: { title: 'The pump hums' } });
    const manager = await Api.of(app).signIn('manager@example.org', 'lakes and longer lanes');
    await manager.post(`/api/jobs/${job.id}/notes`, { note: 'We look at it on Thursday', toClient: true }).expect(201);
    await manager.post(`/api/jobs/${job.id}/notes`, { note: 'Spare seal in the van', toClient: false }).expect(201);
    await page.reload();
    await page.getByText(/We look at it on Thursday/).waitFor();
    await page.getByLabel('Your note').fill('Thursday is fine');
    await page.getByRole('button', { name: 'Send the note' }).click();
    await page
      .getByText(/Thursday is fine/)
      .first()
      .waitFor();
    expect(await shown()).not.toMatch(SECRET);
    await goTo(page, 'My skids');
    await page.getByRole('link', { name: 'The pump hums' }).waitFor();
  });

  test('finds nothing of another client under its address', async () => {
    await signIn(page, 'client@example.org');
    const foreign = await app.get(Database).prisma.skid.findFirstOrThrow({ where: { name: 'Oak 1' } });
    for (const path of [`/skids/${foreign.id}`, `/skids/${foreign.id}/history`, `/requests/${fleet.openJobId}`]) {
      await page.goto(path);
      await heading(/^No such/);
      expect(await shown()).not.toMatch(SECRET);
    }
  });

  test.each([
    ['a wide screen', 1440],
    ['a phone', 390],
  ])(
    'can use every page on %s, in light and dark',
    async (_, width) => {
      const visit = await openPage(browser, Api.of(app).address, { width });
      await signIn(visit.page, 'client@example.org');
      const request = await app.get(Database).prisma.job.findFirstOrThrow({ where: { kind: 'breakdown' } });
      const found: Record<string, string[]> = {};
      const ofSkid = `/skids/${fleet.skid.id}`;
      for (const path of ['/', ofSkid, `${ofSkid}/history`, '/requests', '/requests/new', `/requests/${request.id}`, '/notices']) {
        await visit.page.goto(path);
        await visit.page.locator('h1').waitFor();
        await visit.page.locator('.hold').first().waitFor({ state: 'detached' });
        if (path === ofSkid) {
          await visit.page.getByRole('button', { name: 'Show the figures of the last twelve months' }).click();
          await visit.page.getByRole('table', { name: 'Indicators' }).waitFor();
        }
        const excess = await visit.page.evaluate('document.documentElement.scrollWidth - document.documentElement.clientWidth');
        found[path] = [...(await violationsInBothThemes(visit.page)), ...(excess === 0 ? [] : [`${String(excess)} px too wide`])];
        expect(await visit.page.locator('main').textContent()).not.toMatch(SECRET);
      }
      await visit.page.context().close();
      expect(Object.entries(found).filter(([, list]) => list.length > 0)).toEqual([]);
      expect(visit.complaints).toEqual([]);
    },
    120_000,
  );
});

describeInBrowser('a manager', () => {
  test('can use the pages of notices and gateways with what is in them', async () => {
    const { prisma } = app.get(Database);
    const { siteId } = fleet.skid;
    await prisma.gatewayKey.create({ data: { siteId, name: 'Controller of Elm', keyHash: 'x', createdBy: 'test' } });
    await signIn(page, 'manager@example.org');
    const found: Record<string, string[]> = {};
    for (const path of ['/notices', '/gateways', '/dues']) {
      await page.goto(path);
      await page.locator('h1').waitFor();
      await settled();
      found[path] = await violationsInBothThemes(page);
    }
    expect(Object.entries(found).filter(([, list]) => list.length > 0)).toEqual([]);
    await page.getByLabel('Site').selectOption({ label: 'Elm site' });
    await page
      .getByText(/Grease the bearings/)
      .first()
      .waitFor();
    expect(page.url()).toContain(`site=${siteId}`);
    await page.goto('/gateways');
    await page.getByRole('rowheader', { name: 'Controller of Elm' }).waitFor();
  });
});
