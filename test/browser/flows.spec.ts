import { join } from 'node:path';
import { afterAll, afterEach, beforeAll, beforeEach, expect, test } from '@jest/globals';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import type { Browser, Locator, Page } from 'playwright-core';
import { Api } from '../support/api.js';
import { describeInBrowser, openBrowser } from '../support/browser.js';
import { makePageFleet, type PageFleet, WORK_ENTRIES } from '../support/page-fleet.js';
import { startTestApp } from '../support/test-app.js';
import { goTo, openPage, signIn } from '../support/visit.js';

let app: NestFastifyApplication;
let browser: Browser;
let fleet: PageFleet;
let page: Page;

beforeAll(async () => {
  app = await startTestApp(join(import.meta.dirname, '../../dist/web'));
  fleet = await makePageFleet(app, new Date());
  browser = await openBrowser();
}, 120_000);
afterAll(async () => {
  await browser?.close();
  await app?.close();
});

const open = async (width?: number) => {
  ({ page } = await openPage(browser, Api.of(app).address, width === undefined ? {} : { width }));
};
beforeEach(() => open());
afterEach(() => page.context().close());

const textOf = async (place: string | Locator) => (await (typeof place === 'string' ? page.locator(place) : place).first().textContent()) ?? '';
const heading = (name: string | RegExp) => page.getByRole('heading', { level: 1, name }).waitFor();
const rowsOf = (table: string) => page.getByRole('table', { name: table }).locator('tbody > tr');

describeInBrowser('signing in', () => {
  test('is refused with the reason, keeps what was typed, and then leads to the page that was asked for', async () => {
    await page.goto('/dues');
    await page.getByLabel('Email address').fill('manager@example.org');
    await page.getByLabel('Password').fill('not this one');
    await page.getByRole('button', { name: 'Sign in' }).click();
    await page.getByRole('group', { name: 'One answer needs a change' }).waitFor();
    expect(await page.getByLabel('Email address').inputValue()).toBe('manager@example.org');
    await signIn(page, 'manager@example.org');
    await goTo(page, 'Due list');
    await heading('Due list');
    await page.getByRole('button', { name: 'Sign out' }).click();
    await page.getByRole('button', { name: 'Sign in' }).waitFor();
  });
});

describeInBrowser('the fleet', () => {
  beforeEach(() => signIn(page, 'manager@example.org'));

  test('shows the most urgent skid first, and only those of a standing when asked', async () => {
    await rowsOf('Skids, most urgent first').nth(1).waitFor();
    expect(await textOf('tbody tr')).toMatch(/Elm 1.*Overdue.*Grease the bearings/);
    await page.getByRole('radio', { name: /^No data/ }).check();
    await page.getByText('1 skid, most urgent first').waitFor();
    expect(page.url()).toContain('standing=no-data');
    expect(await textOf('tbody tr')).toContain('Elm 2');
  });

  test('says that nothing matches, which is not the same as nothing being there', async () => {
    await page.getByLabel('Find').fill('no such skid');
    await page.getByText('No skids match.').waitFor();
    await page.getByLabel('Find').fill('elm 2');
    await page.getByText('1 skid, most urgent first').waitFor();
  });

  test('says that it could not be loaded, and tries again', async () => {
    await page.route('**/api/dues*', (route) => route.abort());
    await goTo(page, 'Due list');
    await page.getByText('The due list could not be loaded.').waitFor();
    await page.unroute('**/api/dues*');
    await page.getByRole('button', { name: 'Try again' }).click();
    await rowsOf('Due list').first().waitFor();
  });
});

describeInBrowser('a skid', () => {
  const table = 'Cleans and service log';

  test('is drawn with its limits, and read out under the cursor', async () => {
    await signIn(page, 'manager@example.org');
    await page.getByRole('link', { name: 'Elm 1' }).click();
    await heading('Elm 1');
    await page.locator('.plot').nth(1).waitFor();
    expect(await textOf('.reason')).toContain('Grease the bearings');
    expect(await page.getByRole('figure').count()).toBe(2);
    const slider = page.getByRole('slider', { name: /Permeability/ });
    await slider.focus();
    for (let step = 0; step < 5; step++) await page.keyboard.press('ArrowRight');
    expect(await slider.getAttribute('aria-valuetext')).toMatch(/forecast: \d+ L\/m²·h·bar, likely between/);
    await page.keyboard.press('Home');
    expect(await slider.getAttribute('aria-valuetext')).toMatch(/: (1\d\d|200) L\/m²·h·bar$/);
    await page.getByRole('figure').first().getByText('Show as numbers').click();
    await page.getByRole('columnheader', { name: 'Median' }).waitFor();
  });

  test('is drawn in the units that the reader chose', async () => {
    await signIn(page, 'manager@example.org');
    await goTo(page, 'Units');
    await page.getByLabel('Pressure').selectOption('psi');
    await goTo(page, 'Fleet');
    await page.getByRole('link', { name: 'Elm 1' }).click();
    await page.getByText(/change limit of 21\.8 psi/).waitFor(); // 150 kPa
  });

  test('keeps at most a page of its log in the document, 50 entries or 10 on a phone, and finds the rest', async () => {
    await signIn(page, 'manager@example.org');
    await page.goto(`/skids/${fleet.skid.id}`);
    await rowsOf(table).nth(49).waitFor();
    expect(await rowsOf(table).count()).toBe(50);
    await page.getByRole('navigation', { name: 'Pages of the service log' }).getByRole('button', { name: 'Next page' }).click();
    await page.getByText('Page 2', { exact: true }).waitFor();
    expect(await rowsOf(table).count()).toBeLessThanOrEqual(50);
    await page
      .getByRole('region', { name: table })
      .or(page.locator('.block', { hasText: table }))
      .first()
      .waitFor();
    await page
      .locator('.block', { has: page.getByRole('heading', { name: table }) })
      .getByLabel('Find')
      .fill(`number ${WORK_ENTRIES - 1}`);
    await page.getByText(`Walk round number ${WORK_ENTRIES - 1}`).waitFor();
    expect(await rowsOf(table).count()).toBe(1);

    await page.context().close();
    await open(390);
    await signIn(page, 'manager@example.org');
    await page.goto(`/skids/${fleet.skid.id}`);
    await rowsOf(table).nth(9).waitFor();
    expect(await rowsOf(table).count()).toBe(10);
  });

  test('takes a clean that somebody writes down', async () => {
    await signIn(page, 'manager@example.org');
    await page.goto(`/skids/${fleet.skid.id}`);
    await page.getByText('Write down a clean').click();
    await page.getByRole('button', { name: 'Write it down' }).first().click();
    await page.getByRole('link', { name: 'Chemical is missing' }).click();
    await page.keyboard.type('citric acid');
    await page.keyboard.press('Enter');
    await rowsOf(table).filter({ hasText: 'CEB with citric acid' }).waitFor();
  });
});

describeInBrowser('chemicals', () => {
  test('say for a storekeeper when each tank runs out and why, and take a delivery', async () => {
    await signIn(page, 'storekeeper@example.org');
    await goTo(page, 'Chemicals');
    const row = rowsOf('Chemicals').first();
    await row.waitFor();
    expect(await textOf(row)).toContain('Hypochlorite tank');
    expect(await textOf(row)).toContain('Caution:');
    await row.getByText('Enter a dip or delivery').click();
    await row.getByLabel('Delivered, L').fill('200');
    await row.getByRole('button', { name: 'Write it down' }).last().click();
    await row.getByText('Saved.').waitFor();
    expect(await page.getByRole('link', { name: 'Registry' }).count()).toBe(0);
  });
});

describeInBrowser('readings by hand', () => {
  beforeEach(async () => {
    await page.context().close();
    await open(390);
    await signIn(page, 'client@example.org');
  });

  test('are entered by a client’s operator, who finds only what is theirs', async () => {
    await heading('My skids');
    expect(await textOf(page.getByRole('navigation', { name: 'Main' }))).not.toMatch(/Due list|Chemicals|Registry|Load/);
    await goTo(page, 'Hand readings');
    await page.getByRole('link', { name: 'Elm 1' }).click();
    await page.getByRole('button', { name: 'Send the reading' }).click();
    await page.getByRole('group', { name: 'One answer needs a change' }).waitFor();
    expect(await page.evaluate('document.activeElement.className')).toBe('trouble');
    await page.getByLabel('Feed pressure', { exact: true }).fill('1,35');
    await page.getByLabel('Feed pump: run hours').fill('5999');
    await page.getByLabel('Another gauge').selectOption('Feed turbidity');
    await page.getByLabel('Feed turbidity').fill('2.4');
    await page.getByRole('button', { name: 'Send the reading' }).click();
    await page.getByRole('heading', { name: 'The reading is in' }).waitFor();
    expect(await textOf('.facts')).toMatch(/New, kept3/);
  });

  test('stay on the device until they are sent', async () => {
    await page.goto(`/skids/${fleet.skid.id}/readings`);
    await page.getByLabel('Note').fill('Gauge glass cracked');
    await page.getByText('Saved on this device.').waitFor();
    await page.reload();
    await page.getByText('What you typed before is back, from this device.').waitFor();
    expect(await page.getByLabel('Note').inputValue()).toBe('Gauge glass cracked');
  });

  test('are refused at the field that cannot be so', async () => {
    await page.goto(`/skids/${fleet.skid.id}/readings`);
    await page.getByLabel('Feed pressure', { exact: true }).fill('900');
    await page.getByRole('button', { name: 'Send the reading' }).click();
    await page
      .getByRole('group', { name: 'One answer needs a change' })
      .getByRole('link', { name: /^Feed pressure: / })
      .click();
    expect(await page.evaluate('document.activeElement.value')).toBe('900');
  });

  test('come from a pasted back-log as well, tried before they are added', async () => {
    await page.goto(`/skids/${fleet.skid.id}/back-log`);
    await page.getByLabel('Rows', { exact: true }).fill('2026-01-05 06:00\t1.30\n2026-01-06 06:00\tlow\n2026-01-07 06:00\t1.32');
    await page.getByLabel('Column 2 is').selectOption('Feed pressure');
    const add = page.getByRole('button', { name: 'Add them' });
    expect(await add.isDisabled()).toBe(true);
    await page.getByRole('button', { name: 'Try it, write nothing' }).click();
    await page.getByRole('heading', { name: 'What would happen (nothing was written)' }).waitFor();
    expect(await textOf(rowsOf('Problems'))).toMatch(/2.*low/);
    await add.click();
    await page.getByRole('heading', { name: 'What was done' }).waitFor();
    expect(await textOf('.facts')).toMatch(/New, kept2/);
  });
});

describeInBrowser('a log', () => {
  const rows = (flow: number) => `Zeit;Durchfluss;Speisedruck\n01.12.2025 08:00;${flow},5;1,40\n01.12.2025 08:01;${flow},6;1,41\nkaputt;1;2\n`;
  const file = (flow: number) => ({ name: 'export.csv', mimeType: 'text/csv', buffer: Buffer.from(rows(flow)) });

  test('is read by a profile that takes its columns from the file, tried, loaded, and replaces what differs only when told to', async () => {
    await signIn(page, 'manager@example.org');
    await page.goto(`/skids/${fleet.skid.id}/profiles/new`);
    await page.getByLabel('Take the names from the header of a file').setInputFiles(file(36));
    await page.getByLabel('Name of column 2').waitFor();
    expect(await page.getByLabel('Column of the time').inputValue()).toBe('Zeit');
    await page.getByLabel('Name', { exact: true }).fill('Controller export');
    await page.getByLabel('Decimal mark').selectOption(',');
    await page.getByLabel('Format of times').fill('dd.MM.yyyy HH:mm');
    await page.getByLabel('Is, column Durchfluss').selectOption('Filtrate flow');
    await page.getByRole('button', { name: 'Save' }).click();
    await page
      .getByRole('group', { name: 'One answer needs a change' })
      .or(page.getByRole('group', { name: '2 answers need a change' }))
      .waitFor();
    await page.getByLabel('Is, column Speisedruck').selectOption('Feed pressure');
    await page.getByLabel('Unit, column Speisedruck').selectOption('bar');
    await page.getByRole('button', { name: 'Save' }).click();
    await page.getByRole('link', { name: 'Controller export' }).waitFor();

    await page.goto(`/skids/${fleet.skid.id}/load`);
    await page.getByRole('option', { name: 'Controller export' }).waitFor({ state: 'attached' });
    await page.getByLabel('File', { exact: true }).setInputFiles(file(36));
    expect(await page.getByRole('button', { name: 'Load it' }).isDisabled()).toBe(true);
    await page.getByRole('button', { name: 'Try it, write nothing' }).click();
    await page.getByRole('heading', { name: 'What would happen (nothing was written)' }).waitFor();
    expect(await textOf(rowsOf('Problems'))).toMatch(/4.*kaputt/);
    expect(await textOf(rowsOf('The first rows as they were understood'))).toContain('36.5');
    await page.getByRole('button', { name: 'Load it' }).click();
    await page.getByRole('heading', { name: 'What was done' }).waitFor();
    expect(await textOf('.facts')).toMatch(/New, kept4.*Refused1/);
    await rowsOf('Loads so far').filter({ hasText: 'export.csv' }).waitFor();

    await page.getByLabel('File', { exact: true }).setInputFiles(file(37));
    await page.getByRole('button', { name: 'Try it, write nothing' }).click();
    await page.getByRole('heading', { name: 'What would happen (nothing was written)' }).waitFor();
    await page.getByRole('button', { name: 'Load it' }).click();
    await page.getByRole('heading', { name: 'What was done' }).waitFor();
    expect(await textOf('.facts')).toMatch(/Already there2.*Differing2.*Replaced0/);
    await page.getByRole('button', { name: 'Replace the differing values' }).click();
    await page.getByText('Some values differ').waitFor({ state: 'detached' });
    expect(await textOf('.facts')).toMatch(/Replaced2/);
  });
});

describeInBrowser('the registry', () => {
  test('grows from a client down to a skid', async () => {
    await signIn(page, 'manager@example.org');
    await goTo(page, 'Registry');
    await page.getByLabel('Name').fill('Birch Beverages');
    await page.getByRole('button', { name: 'Add' }).click();
    await page.getByRole('link', { name: 'Birch Beverages' }).click();
    await heading('Birch Beverages');
    const site = page.locator('form', { has: page.getByLabel('Time zone') });
    await site.getByLabel('Name').fill('Birch Lane');
    await site.getByLabel('Time zone').fill('Europe/Nowhere');
    await site.getByRole('button', { name: 'Add' }).click();
    await page.getByRole('link', { name: /^Time zone: / }).waitFor();
    await site.getByLabel('Time zone').fill('Europe/Oslo');
    await site.getByRole('button', { name: 'Add' }).click();
    await page.getByRole('link', { name: 'Birch Lane' }).click();
    const skid = page.locator('form', { has: page.getByLabel('Flow scheme') });
    await skid.getByLabel('Name').fill('Birch UF 1');
    await skid.getByLabel('Flow scheme').selectOption('dead-end');
    await skid.getByRole('button', { name: 'Add' }).click();
    await page.getByRole('link', { name: 'Birch UF 1' }).click();
    await heading('Birch UF 1');
  });

  test('invites a person by a link, with which they set their password', async () => {
    await signIn(page, 'manager@example.org');
    await goTo(page, 'People');
    await page.getByLabel('Name').fill('Nils Okafor');
    await page.getByLabel('Email address').fill('nils@example.org');
    await page.getByRole('button', { name: 'Invite somebody' }).click();
    const link = await textOf('code');
    await page.context().close();
    await open();
    await page.goto(new URL(link).pathname);
    await page.getByLabel('Password').fill('short');
    await page.getByRole('button', { name: 'Make the account' }).click();
    await page.getByRole('link', { name: 'The password must have 12 characters or more' }).click();
    await page.keyboard.type(' but longer now');
    await page.getByRole('button', { name: 'Make the account' }).click();
    await heading('Fleet');
    expect(await page.getByText('Nils Okafor').count()).toBe(1);
  });
});
