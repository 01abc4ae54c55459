import { randomUUID } from 'node:crypto';
import { join } from 'node:path';
import { afterAll, afterEach, beforeAll, beforeEach, expect, test } from '@jest/globals';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import type { Browser, Page } from 'playwright-core';
import { Database, Recompute } from '../../src/app/index.js';
import { Api } from '../support/api.js';
import { describeInBrowser, openBrowser } from '../support/browser.js';
import { makePageFleet } from '../support/page-fleet.js';
import { startTestApp } from '../support/test-app.js';
import { violationsInBothThemes } from '../support/violations.js';
import { goTo, openPage, signIn } from '../support/visit.js';

const TASK = 'Grease the bearings';

let app: NestFastifyApplication;
let browser: Browser;
let page: Page;
let complaints: string[];
let skidId: string;
let versionId: string;
let sheetId: string;

beforeAll(async () => {
  app = await startTestApp(join(import.meta.dirname, '../../dist/web'));
  ({
    skid: { id: skidId },
  } = await makePageFleet(app, new Date()));
  const { prisma } = app.get(Database);
  versionId = (await prisma.skid.findUniqueOrThrow({ where: { id: skidId } })).ruleSetVersionId ?? '';
  sheetId = (await prisma.taskSheet.findFirstOrThrow({ where: { task: TASK } })).id;
  await app.get(Recompute).now(skidId);
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

const button = (name: string | RegExp) => page.getByRole('button', { name });
const dialog = () => page.getByRole('dialog');
const gone = () => dialog().waitFor({ state: 'detached' });
const settled = () => page.locator('.hold').first().waitFor({ state: 'detached' });

/** What axe finds on a wide screen and on a phone, in both themes. */
async function violations(): Promise<string[]> {
  const found = [...(await violationsInBothThemes(page))];
  await page.setViewportSize({ width: 390, height: 844 });
  found.push(...(await violationsInBothThemes(page)).map((line) => `phone ${line}`));
  const excess = await page.evaluate('document.documentElement.scrollWidth - document.documentElement.clientWidth');
  if (excess !== 0) found.push(`phone: ${String(excess)} px too wide`);
  await page.setViewportSize({ width: 1440, height: 900 });
  return found;
}

describeInBrowser('upkeep rules', () => {
  test('are changed in a draft, which is published and which a skid then follows', async () => {
    await signIn(page, 'manager@example.org');
    await goTo(page, 'Upkeep rules');
    await button('Make a draft').click();
    await page.getByRole('link', { name: 'Version 2' }).click();
    await page.getByText('Nothing is different.').waitFor();

    await button('Add a rule').click();
    await dialog().getByRole('button', { name: 'Save the rule' }).click();
    await dialog().getByRole('group', { name: '2 answers need a change' }).waitFor();
    expect(await violations()).toEqual([]);
    await dialog().getByLabel('Task sheet').selectOption({ label: TASK });
    await dialog().getByLabel('Task', { exact: true }).fill('Listen to the pump');
    await dialog().getByLabel('Where').selectOption('feed pump');
    await dialog().getByLabel('Run hours').fill('250');
    await dialog().getByLabel('Outlook').selectOption('permeability');
    await dialog().getByRole('button', { name: 'Save the rule' }).click();
    // What only the service knows is told at the field too, and what was typed stays.
    await dialog()
      .getByText(/^Outlook: the outlook of permeability speaks of the skid/)
      .first()
      .waitFor();
    expect(await dialog().getByLabel('Run hours').inputValue()).toBe('250');
    await dialog().getByLabel('Outlook').selectOption('');
    await dialog().getByRole('checkbox', { name: TASK }).check();
    await dialog().getByRole('button', { name: 'Save the rule' }).click();
    await gone();
    await page.getByText('250 run hours; counted from the day it was done').waitFor();
    await page.getByText(`done with it: ${TASK}`).waitFor();

    await page
      .getByRole('row', { name: /60 days/ })
      .getByRole('button', { name: `Change ${TASK}` })
      .click();
    await dialog().getByLabel('Days', { exact: true }).fill('90');
    await dialog().getByLabel('Counted from').selectOption('fixed');
    await dialog().getByRole('button', { name: 'Save the rule' }).click();
    await gone();
    await page.getByText('Changed: days 60 → 90; counted from floating → fixed').waitFor();
    expect(await violations()).toEqual([]);

    await button('Publish').click();
    await dialog().getByRole('button', { name: 'Publish' }).click();
    await dialog().getByRole('group', { name: 'One answer needs a change' }).waitFor();
    await dialog().getByLabel('Why there is this version').fill('The new grease lasts longer');
    await dialog().getByRole('button', { name: 'Publish' }).click();
    await gone();
    await button('Add a rule').waitFor({ state: 'detached' });
    await page.getByRole('link', { name: 'Let skids follow it…' }).click();
    await button('Choose the skid on version 1').click();
    await page.getByText('1 skid is chosen.').waitFor();
    expect(await violations()).toEqual([]);
    await button('See what changes…').click();
    // What is done with the new task falls away.
    await dialog().getByText('1 skid: 1 lines come, 1 go, 0 fall due earlier, 0 later.').waitFor();
    expect(await violations()).toEqual([]);
    await dialog().getByRole('button', { name: 'Let 1 skid follow it' }).click();
    await page.getByText('1 skid follows it from now on.').waitFor();
    await page.getByText('follows it already').waitFor();
  }, 90_000);

  test('of a draft are left out again, and the draft is thrown away', async () => {
    await signIn(page, 'manager@example.org');
    await goTo(page, 'Upkeep rules');
    await button('Make a draft').click();
    await page.getByRole('link', { name: 'Version 3' }).click();
    await button('Leave out Listen to the pump').click();
    await dialog().getByRole('button', { name: 'Leave out' }).click();
    await gone();
    await page
      .getByRole('table', { name: /^What is different/ })
      .getByText('Left out')
      .waitFor();
    await button('Throw the draft away').click();
    await dialog().getByRole('button', { name: 'Throw the draft away' }).click();
    await page.getByRole('heading', { level: 1, name: 'Upkeep rules' }).waitFor();
    await page.getByRole('link', { name: 'Version 3' }).waitFor({ state: 'detached' });
    await page.getByRole('link', { name: 'Version 2' }).waitFor();
  }, 60_000);

  test('of one skid are overridden with a reason until that ends, and it has rules of its own', async () => {
    await signIn(page, 'manager@example.org');
    await page.goto(`/skids/${skidId}`);
    await page.getByRole('navigation', { name: 'For this skid' }).getByRole('link', { name: 'Upkeep rules' }).click();
    await button(`Change here… ${TASK}, Feed pump`).click();
    await dialog().getByRole('button', { name: 'Save' }).click();
    await dialog().getByText('Say why the rule does not fit here').first().waitFor();
    expect(await violations()).toEqual([]);
    await dialog().getByLabel('Days', { exact: true }).fill('30');
    await dialog().getByLabel('Reason').fill('Dusty room');
    await dialog().getByRole('button', { name: 'Save' }).click();
    await gone();
    await page.getByText('changed here: Dusty room').waitFor();
    expect(await violations()).toEqual([]);
    await button(`End it ${TASK}, Feed pump`).click();
    await dialog().getByRole('button', { name: 'End it' }).click();
    await gone();
    await page.getByText('changed here: Dusty room').waitFor({ state: 'detached' });
    expect(await page.getByRole('table', { name: 'What is different here, and was' }).getByText('Dusty room').count()).toBe(1);

    await button('Add a rule for this skid alone').click();
    await dialog().getByLabel('Task sheet').selectOption({ label: TASK });
    await dialog().getByLabel('Task', { exact: true }).fill('Look at the paint');
    await dialog().getByLabel('Days', { exact: true }).fill('365');
    await dialog().getByRole('button', { name: 'Save the rule' }).click();
    await gone();
    await page.getByRole('row', { name: /Look at the paint.*this skid alone/ }).waitFor();

    await app.get(Recompute).now(skidId);
    await button('Follow another rule set…').click();
    await dialog().getByLabel('Rule set').selectOption({ label: 'None: the rules of this skid alone go on' });
    await dialog()
      .getByText(/^1 skid: 0 lines come, 1 go/)
      .waitFor();
    await dialog().getByRole('button', { name: 'Leave the rule set' }).click();
    await gone();
    await page.getByText('no rule set').waitFor();
    await page.getByRole('row', { name: /Look at the paint/ }).waitFor();

    await button('End Look at the paint').click();
    await dialog().getByRole('button', { name: 'End', exact: true }).click();
    await page.getByText('No rule holds at this skid, so nothing falls due by itself.').waitFor();
  }, 90_000);

  test('are read by everybody of the department, and changed by managers alone', async () => {
    await signIn(page, 'storekeeper@example.org');
    await page.goto(`/rules/${versionId}`);
    await page.getByRole('heading', { name: 'Rules', exact: true }).waitFor();
    expect(await page.getByRole('button', { name: /Change|Leave out|Add a rule|Publish/ }).count()).toBe(0);
    await page.goto(`/skids/${skidId}/rules`);
    await page.getByRole('heading', { name: 'Rules that hold here' }).waitFor();
    expect(await page.getByRole('button', { name: /Change here|Follow|End|Add/ }).count()).toBe(0);
  });
});

describeInBrowser('a task sheet', () => {
  test('gets a next version, and the one before can still be read', async () => {
    await signIn(page, 'manager@example.org');
    await page.goto(`/task-sheets/${sheetId}`);
    await page.getByRole('link', { name: 'Edit as next version' }).click();
    await button('Add a step').click();
    await page.getByLabel('What it asks').selectOption('reading');
    await page.getByLabel('What it reads').selectOption('feed_pressure');
    expect(await page.getByLabel('Unit').inputValue()).toBe('kPa');
    await page.getByLabel('From', { exact: true }).fill('200');
    await page.getByLabel('To', { exact: true }).fill('100');
    await page.getByLabel('Usual time, minutes').fill('half an hour');
    await button('Save as next version').click();
    await page.getByRole('group', { name: '3 answers need a change' }).waitFor();
    expect(await violations()).toEqual([]);
    await page.getByLabel('Usual time, minutes').fill('30');
    await page.getByLabel('In words').fill('Pressure before the pump');
    await page.getByLabel('To', { exact: true }).fill('300');
    await page.getByLabel('Unit').fill('m3/h');
    await button('Save as next version').click();
    await page
      .getByText(/the signal feed_pressure is a pressure and is not read in m3\/h/)
      .first()
      .waitFor();
    await page.getByLabel('Unit').fill('kPa');
    await page.getByLabel('Tools').fill('Grease gun\nRag');
    await page.getByRole('checkbox', { name: 'electricity' }).check();
    await button('Add a part').click();
    await page.getByLabel('Item').selectOption({ label: 'Cartridge, 5 micrometres (CART-1)' });
    await button('Save as next version').click();

    await page.getByText('Between 200 and 300 kPa').waitFor();
    await page.getByText('1 × Cartridge, 5 micrometres (CART-1)').waitFor();
    await page.getByText('Grease gun').waitFor();
    await settled();
    expect(await violations()).toEqual([]);
    await page.getByRole('link', { name: 'Version 1' }).click();
    await page.getByText('This is version 1. New work follows version 2.').waitFor();
    expect(await page.getByText('Grease gun').count()).toBe(0);
  }, 60_000);

  test('takes what finished work says only when somebody takes and saves it', async () => {
    const { prisma } = app.get(Database);
    const { id: sheetVersionId } = await prisma.taskSheetVersion.findFirstOrThrow({ where: { taskSheetId: sheetId }, orderBy: { no: 'desc' } });
    for (let no = 0; no < 3; no += 1) await finishedJob(sheetVersionId);
    await signIn(page, 'manager@example.org');
    await page.goto(`/task-sheets/${sheetId}/edit`);
    await page.getByText('The last 3 jobs took 50 minutes as a rule (50 to 50); the sheet says 30.').waitFor();
    expect(await page.getByLabel('Usual time, minutes').inputValue()).toBe('30');
    await button('Take 50 minutes').click();
    await button('Take it out Cartridge, 5 micrometres').click();
    expect(await page.getByLabel('Usual time, minutes').inputValue()).toBe('50');
    expect((await prisma.taskSheetVersion.findUniqueOrThrow({ where: { id: sheetVersionId } })).usualMinutes).toBe(30);
    await button('Save as next version').click();
    await page.getByText('50 min', { exact: true }).waitFor();
    expect(await page.getByText('1 × Cartridge').count()).toBe(0);
  }, 60_000);

  test('is made new', async () => {
    await signIn(page, 'manager@example.org');
    await goTo(page, 'Task sheets');
    await page.getByRole('link', { name: 'Make a task sheet' }).click();
    await page.getByLabel('Task', { exact: true }).fill('Paint the frame');
    await page.getByLabel('Usual time, minutes').fill('120');
    await button('Make the task sheet').click();
    await page.getByRole('heading', { level: 1, name: 'Paint the frame' }).waitFor();
  });
});

/** A finished job whose only task followed the sheet and took 50 minutes, without a part. */
async function finishedJob(sheetVersionId: string): Promise<void> {
  const { prisma } = app.get(Database);
  const { clientId, siteId } = await prisma.skid.findUniqueOrThrow({ where: { id: skidId } });
  const finishedAt = new Date();
  const about = { skidId, clientId, siteId, kind: 'service', title: TASK, state: 'finished', createdBy: 'test', finishedAt };
  const { id: jobId } = await prisma.job.create({ data: about });
  await prisma.jobTask.create({ data: { clientId, place: 1, task: TASK, outcome: 'done', jobId, sheetVersionId } });
  const report = { clientId, byId: randomUUID(), by: 'test', startedAt: finishedAt, finishedAt, minutes: 50, contentHash: '', summary: {} };
  await prisma.jobReport.create({ data: { ...report, id: randomUUID(), jobId, state: 'counts', content: { partsUsed: [], tasks: [] } } });
}

describeInBrowser('the work ahead and the indicators', () => {
  test('are narrowed to a client and a skid, and say what a week is made of', async () => {
    await signIn(page, 'manager@example.org');
    await goTo(page, 'Work ahead');
    await page.getByText(/^Most work lies in the week of/).waitFor();
    await page.getByLabel('Client').selectOption({ index: 1 });
    await page.getByLabel('Skid', { exact: true }).selectOption({ index: 1 });
    await page.getByLabel('Show the tasks of').selectOption({ index: 1 });
    await page.getByRole('heading', { name: /^The week of/ }).waitFor();
    await settled();
    expect(await violations()).toEqual([]);
    expect(page.url()).toMatch(/client=.*skid=.*week=/);
  });

  test('show what each figure was counted from', async () => {
    await signIn(page, 'manager@example.org');
    await goTo(page, 'Indicators');
    const row = page.getByRole('row', { name: /^Availability/ });
    await row.getByText('hours in service', { exact: true }).waitFor();
    await page.getByText('Of 2 skids').waitFor();
    await page.getByLabel('Skid', { exact: true }).selectOption({ index: 1 });
    await page.getByText('Of 1 skid', { exact: true }).waitFor();
    await page.getByLabel('Failures').selectOption({ label: 'Every breakdown' });
    await settled();
    expect(await violations()).toEqual([]);
  });
});
