import { join } from 'node:path';
import { afterAll, afterEach, beforeAll, beforeEach, expect, test } from '@jest/globals';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import type { Browser, Page } from 'playwright-core';
import { Database } from '../../src/app/index.js';
import { Api } from '../support/api.js';
import { describeInBrowser, openBrowser } from '../support/browser.js';
import { makePlanFleet, type PlanFleet } from '../support/plan-fleet.js';
import { startTestApp } from '../support/test-app.js';
import { violationsInBothThemes } from '../support/violations.js';
import { goTo, openPage, signIn } from '../support/visit.js';

let app: NestFastifyApplication;
let browser: Browser;
let fleet: PlanFleet;
let complaints: string[] = [];

const WEEK = { workDays: [1, 2, 3, 4, 5, 6, 7], shiftFrom: '06:00', regularUntil: '16:00', shiftUntil: '20:00', mostNights: 0 };

beforeAll(async () => {
  app = await startTestApp(join(import.meta.dirname, '../../dist/web'));
  fleet = await makePlanFleet(app, new Date());
  const { prisma } = app.get(Database);
  await prisma.site.updateMany({ data: { latitude: 50.2, longitude: 8.1 } });
  const jo = await prisma.person.findFirstOrThrow({ where: { name: 'Jo Fell' } });
  await prisma.personPlanning.create({ data: { ...WEEK, personId: jo.id, latitude: 50, longitude: 8 } });
  browser = await openBrowser();
}, 120_000);
afterAll(async () => {
  await browser?.close();
  await app?.close();
});
beforeEach(() => {
  complaints = [];
});
afterEach(() => expect(complaints).toEqual([]));

async function openAsManager(width: number): Promise<Page> {
  const opened = await openPage(browser, Api.of(app).address, { width });
  complaints = opened.complaints;
  await signIn(opened.page, 'manager@example.org');
  return opened.page;
}

async function searchPlan(page: Page): Promise<void> {
  await goTo(page, 'Week plan');
  await page.getByLabel('Seconds to search').fill('0');
  await page.getByRole('button', { name: 'Search a plan' }).click();
  await page.getByRole('heading', { name: /^Plan \d+$/ }).waitFor();
}

describeInBrowser('what planning knows', () => {
  test('of a person is entered with skills and days away; what is missing is told at its field', async () => {
    const page = await openAsManager(390);
    await goTo(page, 'People');
    await page.getByRole('link', { name: 'Working hours Kim Ash' }).click();
    await page.getByText('Nothing is entered yet').waitFor();
    await page.getByLabel('Latitude of home or depot').fill('50,5');
    await page.getByRole('button', { name: 'Add a skill' }).click();
    await page.getByRole('button', { name: 'Save' }).click();
    await page.getByRole('group', { name: '2 answers need a change' }).waitFor();
    expect(await violationsInBothThemes(page)).toEqual([]);
    await page.getByRole('link', { name: 'Skill is missing' }).click();
    await page.keyboard.type('Pumps');
    await page.getByLabel('Longitude of home or depot').fill('8.3');
    await page.getByRole('button', { name: 'Save' }).click();
    await page.getByText('Saved.').waitFor();
    await page.reload();
    expect(await page.getByLabel('Skill', { exact: true }).inputValue()).toBe('Pumps');
    expect(await page.getByLabel('Latitude of home or depot').inputValue()).toBe('50.5');
    await page.context().close();
  }, 60_000);

  test('of a site are the hours at which people are let in; those that end before they begin are refused at their field', async () => {
    const page = await openAsManager(1440);
    await page.goto(`/registry/sites/${fleet.skid.siteId}`);
    await page.getByRole('link', { name: /^When people are let in/ }).click();
    await page.getByRole('button', { name: 'Add hours' }).click();
    await page.getByRole('checkbox', { name: 'Saturday' }).check();
    await page.getByLabel('Until').fill('07:00');
    await page.getByRole('button', { name: 'Save' }).click();
    await page.getByRole('link', { name: /^Until: must be later than 08:00/ }).waitFor();
    await page.getByLabel('Until').fill('18:00');
    await page.getByRole('button', { name: 'Save' }).click();
    await page.getByText('Saved.').waitFor();
    expect(await violationsInBothThemes(page)).toEqual([]);
    await page.context().close();
  }, 60_000);
});

describeInBrowser('the week plan', () => {
  test('is searched and drawn, says by keyboard why a visit is there and what speaks against another time, and is taken over line by line', async () => {
    const page = await openAsManager(1440);
    await searchPlan(page);
    const stay = page.getByRole('button', { name: /^\d+ .*, \d\d:\d\d–\d\d:\d\d, Jo Fell/ }).first();
    await stay.waitFor();
    expect(await violationsInBothThemes(page)).toEqual([]);

    await stay.focus();
    await page.keyboard.press('Enter');
    const dialog = page.getByRole('dialog');
    await dialog.getByText(/^The way there takes /).waitFor();
    await dialog.getByText('Nothing of what is known speaks against it.').waitFor();
    await dialog.getByLabel('Start').fill('23:00');
    await dialog.getByText(/^Jo Fell works from 06:00 to 20:00/).waitFor();
    expect(await violationsInBothThemes(page)).toEqual([]);
    await page.keyboard.press('Escape');
    await dialog.waitFor({ state: 'detached' });

    await page
      .getByRole('checkbox', { name: /Take over/ })
      .first()
      .check();
    await page.getByRole('button', { name: 'Take the chosen over' }).click();
    await page.getByRole('link', { name: /^visit \d+, taken over by / }).click();
    await page.getByRole('heading', { level: 1, name: /^Visit \d+, / }).waitFor();
    await page.getByRole('button', { name: 'Ask the client whether the day suits' }).click();
    await dialog.getByRole('button', { name: 'Ask', exact: true }).click();
    await page.getByText('No answer yet.').waitFor();
    await goTo(page, 'Week plan');
    await page.getByText('the client was asked, no answer yet').waitFor();
    await page.context().close();
  }, 60_000);

  test('is laid beside one with somebody more or with work a week later, and the search of these can be stopped', async () => {
    const page = await openAsManager(390);
    await goTo(page, 'Week plan');
    await page.getByRole('heading', { name: /^Plan \d+$/ }).waitFor();
    const plans = await page.getByLabel('Plan', { exact: true }).locator('option').count();
    const ask = page.getByRole('button', { name: 'What if…' });
    await ask.focus();
    await page.keyboard.press('Enter');
    const dialog = page.getByRole('dialog');
    await dialog.getByRole('button', { name: 'Compare' }).click();
    await dialog.getByRole('link', { name: 'Choose whose home and hours they would have' }).click();
    await dialog.getByLabel('Home and hours like').selectOption({ label: 'Jo Fell' });
    await dialog.getByLabel('Seconds to search').fill('0');
    await dialog.getByRole('button', { name: 'Compare' }).click();
    await dialog.getByText(/^In all it costs/).waitFor();
    expect(await dialog.getByRole('row', { name: /^Work / }).count()).toBe(1);
    expect(await page.evaluate('document.documentElement.scrollWidth - innerWidth')).toBeLessThanOrEqual(0);
    expect(await violationsInBothThemes(page)).toEqual([]);

    await dialog.getByRole('button', { name: 'Ask something else' }).click();
    await dialog.getByRole('radio', { name: /^Some work comes later/ }).check();
    await dialog.getByLabel('Work', { exact: true }).selectOption({ index: 1 });
    expect(await dialog.getByLabel('Not before', { exact: true }).inputValue()).toMatch(/^\d{4}-\d\d-\d\d$/);
    // A search of so little work may be over before a button can be pressed: this one never ends.
    await page.route('**/api/plans/what-if', () => undefined);
    await dialog.getByRole('button', { name: 'Compare' }).click();
    await dialog.getByRole('progressbar', { name: 'Search' }).waitFor();
    expect(await violationsInBothThemes(page)).toEqual([]);
    await dialog.getByRole('button', { name: 'Stop' }).click();
    await dialog.getByText('Stopped. Nothing was kept.').waitFor();
    await page.keyboard.press('Escape');
    await page.reload();
    await page.getByRole('heading', { name: /^Plan \d+$/ }).waitFor();
    expect(await page.getByLabel('Plan', { exact: true }).locator('option').count()).toBe(plans);
    await page.context().close();
  }, 60_000);

  test('fits a phone, and paper', async () => {
    const page = await openAsManager(390);
    await goTo(page, 'Week plan');
    await page.locator('.day-strip').first().waitFor();
    expect(await page.evaluate('document.documentElement.scrollWidth - innerWidth')).toBeLessThanOrEqual(0);
    expect(await violationsInBothThemes(page)).toEqual([]);
    await page.emulateMedia({ media: 'print' });
    expect(await page.getByRole('button', { name: 'Search a plan' }).isVisible()).toBe(false);
    expect(await page.locator('.day-strip').first().isVisible()).toBe(true);

    await page.emulateMedia({ media: 'screen' });
    await page.goto('/day-sheet');
    await page.getByLabel('Technician').selectOption({ label: 'Jo Fell' });
    await page.getByLabel('Day').fill(new Date().toISOString().slice(0, 10));
    await page.getByRole('row', { name: /Bearing grease/ }).waitFor();
    expect(await violationsInBothThemes(page)).toEqual([]);
    await page.context().close();
  }, 60_000);
});

describeInBrowser('ways between sites', () => {
  test('say where their time comes from; one is set by hand, and a region is added and removed', async () => {
    const page = await openAsManager(390);
    await goTo(page, 'Week plan');
    await page.getByRole('link', { name: 'How long ways take' }).click();
    await page.getByText(/^No road table is set up/).waitFor();
    await page.getByLabel('From', { exact: true }).selectOption({ index: 1 });
    await page.getByLabel('To', { exact: true }).selectOption({ label: 'Jo Fell' });
    await page.getByText(/estimated by distance\.$/).waitFor();
    await page.getByRole('button', { name: 'Set a time by hand' }).first().click();
    const dialog = page.getByRole('dialog');
    await dialog.getByLabel('Minutes').fill('');
    await dialog.getByRole('button', { name: 'Save' }).click();
    await dialog.getByRole('link', { name: /^Enter whole minutes/ }).click();
    await page.keyboard.type('95');
    await dialog.getByLabel('Why').fill('By ferry');
    expect(await violationsInBothThemes(page)).toEqual([]);
    await dialog.getByRole('button', { name: 'Save' }).click();
    await page.getByText(/1 h 35 min, .* km, set by hand\.$/).waitFor();
    await page.getByRole('row', { name: /both ways.*95.*By ferry/ }).waitFor();

    await page.getByRole('button', { name: 'Add a region' }).click();
    await dialog.getByLabel('Name').fill('Hills');
    await dialog.getByLabel('Road factor').fill('1.45');
    await dialog.getByRole('checkbox').first().check();
    expect(await violationsInBothThemes(page)).toEqual([]);
    await dialog.getByRole('button', { name: 'Save' }).click();
    await page.getByRole('row', { name: /Hills.*1 site: .*1\.45/ }).waitFor();
    await page.getByRole('row', { name: /Hills.*Too little to say/ }).waitFor();
    expect(await page.evaluate('document.documentElement.scrollWidth - innerWidth')).toBeLessThanOrEqual(0);
    expect(await violationsInBothThemes(page)).toEqual([]);
    await page.getByRole('button', { name: 'Remove Hills' }).click();
    await dialog.getByRole('button', { name: 'Remove' }).click();
    await page.getByRole('row', { name: /Hills/ }).first().waitFor({ state: 'detached' });
    await page.context().close();
  }, 60_000);
});
