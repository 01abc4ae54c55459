import { cpSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, afterEach, beforeAll, beforeEach, expect, test } from '@jest/globals';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { hashPassword } from '../../src/people/index.js';
import { Api } from '../support/api.js';
import { describeInBrowser, openBrowser } from '../support/browser.js';
import { PASSWORD } from '../support/page-fleet.js';
import { startTestApp } from '../support/test-app.js';
import { violationsInBothThemes } from '../support/violations.js';
import { goTo, openPage, signIn } from '../support/visit.js';
import { makeWorkFleet } from '../support/work-fleet.js';

// A copy, so that a newer build can be put in its place.
const pages = mkdtempSync(join(tmpdir(), 'skidkeep-pages-'));
let app: NestFastifyApplication;
let browser: Browser;
let page: Page;
let context: BrowserContext;
/** What reached the service of sheets and photographs */
let arrived: string[];

beforeAll(async () => {
  cpSync(join(import.meta.dirname, '../../dist/web'), pages, { recursive: true });
  for (const file of readdirSync(pages, { recursive: true, encoding: 'utf8' })) if (/\.(br|gz)$/.test(file)) rmSync(join(pages, file));
  app = await startTestApp(pages);
  await makeWorkFleet(app, await hashPassword(PASSWORD), new Date());
  browser = await openBrowser();
}, 120_000);
afterAll(async () => {
  await browser?.close();
  await app?.close();
  rmSync(pages, { recursive: true, force: true });
});

async function open(width = 390): Promise<void> {
  ({ page } = await openPage(browser, Api.of(app).address, { width }));
  context = page.context();
  arrived = [];
  context.on('response', (response) => {
    const { pathname } = new URL(response.url());
    const what = /\/(reports|attachments)\b/.exec(pathname)?.[1];
    if (what !== undefined) arrived.push(`${response.request().method()} ${what} ${response.status()}`);
  });
}
beforeEach(() => open());
afterEach(() => context.close());

/** The pages and the sheets are on the device. */
async function fetchedAhead(who = 'jo@example.org'): Promise<void> {
  await signIn(page, who);
  await goTo(page, 'My work');
  await page.getByRole('link', { name: /Pump check/ }).waitFor();
  await page.evaluate('navigator.serviceWorker.ready');
}

const openSheet = async (title: string | RegExp, on: Page = page) => {
  await on.getByRole('link', { name: title }).first().click();
  await on.getByRole('heading', { level: 1, name: title }).waitFor();
};
const unsent = (on: Page = page) => on.getByText(/not yet sent\./);
const task = () => page.locator('.block', { has: page.getByRole('heading', { name: 'Grease the bearings' }) });

/** A picture such as a camera makes: larger than what is sent. */
async function takePhotograph(): Promise<void> {
  const picture = (await page.evaluate(`(async () => {
    const canvas = Object.assign(document.createElement('canvas'), { width: 2400, height: 1800 });
    canvas.getContext('2d').fillRect(300, 300, 900, 900);
    const blob = await new Promise((done) => canvas.toBlob(done, 'image/png'));
    return [...new Uint8Array(await blob.arrayBuffer())];
  })()`)) as number[];
  await task()
    .locator('input[type=file]')
    .setInputFiles({ name: 'bearing.png', mimeType: 'image/png', buffer: Buffer.from(picture) });
  await task().locator('img.thumb').waitFor();
}

async function fillIn(): Promise<void> {
  await page.getByRole('button', { name: 'Start the clock' }).click();
  await task().getByRole('radio', { name: 'Yes' }).check();
  await task().getByRole('radio', { name: 'Done', exact: true }).first().check();
  await task().getByLabel('Value, bar').fill('1,2');
  await takePhotograph();
  await task().getByRole('group', { name: 'This task is' }).getByRole('radio', { name: 'Done', exact: true }).check();
  await page.getByRole('button', { name: 'One more of Bearing grease' }).click();
  await page.getByLabel('Minutes worked').fill('40');
  await page.getByLabel('Signed by').fill('M. Soto');
}
/** The least that can be sent. */
async function fillInLittle(): Promise<void> {
  await page.getByRole('button', { name: 'Start the clock' }).click();
  await page.getByLabel('Minutes worked').fill('5');
  await page.getByLabel('Signed by').fill('M. Soto');
  await page.getByRole('radio', { name: 'To be continued' }).check();
}
const send = () => page.getByRole('button', { name: 'Send the sheet' }).click();

describeInBrowser('a job sheet without signal', () => {
  test('opens, is filled in, survives a reload, waits in sight on every page, and is sent once after signing in again', async () => {
    await fetchedAhead();
    await context.setOffline(true);
    await page.reload();
    await openSheet(/Yearly service/);
    await page.getByText('Before you start').waitFor();
    await fillIn();
    await page.reload();
    await page.getByText('What you entered before is back, from this device.').waitFor();
    expect(await task().getByLabel('Value, bar').inputValue()).toBe('1,2');
    await task().locator('img.thumb').waitFor();
    await send();
    await page.getByText('Kept on this device.').waitFor();
    await goTo(page, 'Hand readings');
    await page.getByRole('link', { name: '1 sheet and 1 photograph not yet sent.' }).waitFor();
    expect(arrived).toEqual([]);

    await context.clearCookies();
    await context.setOffline(false);
    await page.getByLabel('Email address').waitFor();
    await page.getByText('Sign in as Jo Fell to send them.').waitFor();
    await page.getByLabel('Email address').fill('jo@example.org');
    await page.getByLabel('Password').fill(PASSWORD);
    await page.getByRole('button', { name: 'Sign in' }).click();
    await unsent().waitFor({ state: 'detached' });
    await page.reload();
    await goTo(page, 'My work');
    await openSheet(/Yearly service/);
    await page.getByText('The office has it, and it counts.').waitFor();
    expect(arrived).toEqual(['PUT attachments 200', 'POST reports 201']);
  });

  test('is not sent under the name of somebody else who signs in, and is sent once by two open pages', async () => {
    await fetchedAhead();
    await openSheet(/Second look/);
    await context.setOffline(true);
    await fillInLittle();
    await send();
    await page.getByText('Kept on this device.').waitFor();
    await context.clearCookies();
    await context.setOffline(false);
    await page.getByLabel('Email address').fill('kim@example.org');
    await page.getByLabel('Password').fill(PASSWORD);
    await page.getByRole('button', { name: 'Sign in' }).click();
    await page.getByText('1 sheet of Jo Fell not yet sent').waitFor();
    await page.getByRole('button', { name: 'Sign out' }).click();
    await page.getByText('Sign in as Jo Fell').waitFor();
    expect(arrived).toEqual([]);

    const other = await context.newPage();
    await other.goto('/');
    await signIn(page, 'jo@example.org');
    await other.reload();
    await unsent(other).waitFor({ state: 'detached' });
    await unsent().waitFor({ state: 'detached' });
    expect(arrived).toEqual(['POST reports 201']);
  });

  test('is not lost when a newer build takes the place of the pages that it was typed in', async () => {
    await fetchedAhead();
    await openSheet(/Pump check/);
    await page.getByLabel('Note on the job').fill('Coupling guard loose');
    await page.getByText('Saved on this device.').waitFor();
    const before = await page.evaluate('caches.keys()');
    for (const file of ['sw.js', 'index.html']) {
      const text = readFileSync(join(pages, file), 'utf8');
      writeFileSync(join(pages, file), text.replace(/pages [0-9a-f]{12}/, 'pages newerbuild').replace('<title>Skidkeep', '<title>Newer Skidkeep'));
    }
    await page.reload();
    await page.evaluate(`(async () => {
      while (!(await caches.keys()).includes('pages newerbuild')) await new Promise((done) => setTimeout(done, 50));
    })()`);
    expect(await page.evaluate('caches.keys()')).toEqual([...(before as string[]), 'pages newerbuild']);
    await context.setOffline(true);
    await page.reload();
    await page.getByText('What you entered before is back, from this device.').waitFor();
    expect(await page.getByLabel('Note on the job').inputValue()).toBe('Coupling guard loose');
  });
});

describeInBrowser('a job sheet with signal', () => {
  test('says what is missing before it is sent, and what the service finds wrong at its field', async () => {
    await fetchedAhead('kim@example.org');
    await openSheet(/Pump check/);
    await send();
    await page.getByRole('link', { name: 'Grease the bearings: say whether it is done' }).click();
    expect(await page.evaluate('document.activeElement.type')).toBe('radio');
    await fillInLittle();
    await page.getByLabel('Feed pump: run hours').fill('100');
    const errors = [{ pointer: '#/meters/0/value', message: 'must be 18342 or more' }];
    await page.route('**/reports', (route) =>
      route.fulfill({ status: 422, contentType: 'application/problem+json', json: { status: 422, title: 'Not so', errors } }),
    );
    await send();
    await page.getByRole('link', { name: 'Feed pump: run hours: must be 18342 or more' }).click();
    expect(await page.evaluate('document.activeElement.value')).toBe('100');
    expect(await unsent().count()).toBe(0);

    await page.unroute('**/reports');
    const held = { state: 'held', problems: errors, jobState: 'open' };
    await page.route('**/reports', (route) => route.fulfill({ status: 201, json: { ...held, id: (route.request().postDataJSON() as { id: string }).id } }));
    await send();
    await page.getByText('it does not count yet').waitFor();
    await page.getByRole('group', { name: 'One answer needs a change' }).waitFor();
    await page.getByRole('button', { name: 'Send it again' }).waitFor();
  });

  test('questions at once what cannot be so, and takes no file that is no picture', async () => {
    await fetchedAhead();
    await openSheet(/Pump check/);
    await task().getByLabel('Value, bar').fill('1.7');
    await page.getByText('Above the limit of 1.5 bar.').waitFor();
    await page.getByLabel('Leave it out').first().check();
    await page.getByText('This step keeps people or water safe').waitFor();
    await task()
      .locator('input[type=file]')
      .setInputFiles({ name: 'list.png', mimeType: 'image/png', buffer: Buffer.from('no picture') });
    await page.getByText('list.png is not a picture that this device can read.').waitFor();
    for (let pieces = 0; pieces < 4; pieces++) await page.getByRole('button', { name: 'One more of Bearing grease' }).click();
    await page.getByText(/^That is more than the \d that Van of Jo should hold\./).waitFor();
    await page.getByLabel('The count was wrong').check();
    await page.getByRole('button', { name: 'Next open step' }).click();
    expect(await page.evaluate('document.activeElement.closest(".step") !== null')).toBe(true);
  });

  test('says so at once when the device has no room left', async () => {
    await fetchedAhead('kim@example.org');
    await openSheet(/Pump check/);
    await page.evaluate(`IDBObjectStore.prototype.put = () => { throw new DOMException('no room', 'QuotaExceededError'); }`);
    await page.getByLabel('Note on the job').fill('Much to say');
    await page.getByText('This device has no room left').waitFor();
  });
});

describeInBrowser('the pages of work', () => {
  test.each([390, 1440])('can be used by everybody at %i px, with every target large enough for a glove', async (width) => {
    await context.close();
    await open(width);
    await fetchedAhead();
    for (const summary of await page.locator('summary').all()) await summary.click();
    const found = { 'my work': await violationsInBothThemes(page), sheet: [] as string[] };
    await openSheet(/Pump check/);
    await page.getByRole('button', { name: 'Add follow-up work' }).click();
    found.sheet = await violationsInBothThemes(page);
    expect(found).toEqual({ 'my work': [], sheet: [] });
    const small =
      await page.evaluate(`[...document.querySelectorAll('.work :is(button, select, input:not([type=checkbox], [type=radio], [type=file]), .choice label, .tick, .take-photo)')]
      .filter((element) => element.getBoundingClientRect().height < 44).map((element) => element.outerHTML.slice(0, 90))`);
    expect(small).toEqual([]);
    await page.setViewportSize({ width: 320, height: 800 });
    expect(await page.evaluate('document.documentElement.scrollWidth - document.documentElement.clientWidth')).toBe(0);
  });

  test('say over plain http that they cannot be kept, and still work', async () => {
    await page.addInitScript('Object.defineProperty(window, "isSecureContext", { value: false })');
    await signIn(page, 'kim@example.org');
    await goTo(page, 'My work');
    await page.getByText('This page came over plain http.').waitFor();
    await openSheet(/Pump check/);
    await page.getByRole('button', { name: 'Send the sheet' }).waitFor();
  });
});
