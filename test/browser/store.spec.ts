import { randomUUID } from 'node:crypto';
import { join } from 'node:path';
import { afterAll, afterEach, beforeAll, beforeEach, expect, test } from '@jest/globals';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import type { Browser, Page } from 'playwright-core';
import { Database } from '../../src/app/index.js';
import { RecomputeReorder } from '../../src/store/index.js';
import { Api } from '../support/api.js';
import { describeInBrowser, openBrowser } from '../support/browser.js';
import { makePageFleet, PASSWORD } from '../support/page-fleet.js';
import { startTestApp } from '../support/test-app.js';
import { violationsInBothThemes } from '../support/violations.js';
import { goTo, openPage, signIn } from '../support/visit.js';

/** A trade item number whose check digit is right, the lot and the expiry, as a scanner types them */
const LABEL = '(01)04012345678901(17)301231(10)L-77';

let app: NestFastifyApplication;
let browser: Browser;
let sealId: string;
let page: Page;
let complaints: string[];

beforeAll(async () => {
  app = await startTestApp(join(import.meta.dirname, '../../dist/web'));
  await makePageFleet(app, new Date());
  const { prisma } = app.get(Database);
  const seal = await prisma.item.create({ data: { code: 'SEAL-35', name: 'Mechanical seal', kind: 'seal' } });
  sealId = seal.id;
  await prisma.place.createMany({
    data: [
      { name: 'North store', kind: 'store' },
      { name: 'Shelf in quarantine', kind: 'quarantine' },
    ],
  });
  await prisma.barCode.create({ data: { code: '04012345678901', itemId: sealId, by: 'test' } });
  browser = await openBrowser();
}, 120_000);
afterAll(async () => {
  await browser?.close();
  await app?.close();
});
beforeEach(async () => {
  ({ page, complaints } = await openPage(browser, Api.of(app).address));
  await signIn(page, 'storekeeper@example.org');
});
afterEach(async () => {
  await page.context().close();
  expect(complaints).toEqual([]);
});

const heading = (name: string | RegExp) => page.getByRole('heading', { level: 1, name }).waitFor();
const button = (name: string | RegExp) => page.getByRole('button', { name });
const dialog = () => page.getByRole('dialog');
const entered = (name: RegExp) => page.getByRole('listitem').filter({ hasText: name }).first();

describeInBrowser('a storekeeper', () => {
  test('begins with the reorder list', async () => {
    await heading('Reorder list');
    expect(await violationsInBothThemes(page)).toEqual([]);
    await goTo(page, 'Fleet');
    await heading('Fleet');
  });

  test('receives by a scan, issues, is told what is wrong, and takes an entry back', async () => {
    await goTo(page, 'Stock');
    await page.getByRole('link', { name: 'Receive and issue' }).click();
    await page.getByLabel('To', { exact: true }).selectOption({ label: 'North store' });
    await page.getByLabel('Scan or type an item').fill(LABEL);
    await page.keyboard.press('Enter');
    await page.getByText('Mechanical seal (SEAL-35)').waitFor();
    expect(await page.getByLabel('Lot', { exact: true }).inputValue()).toBe('L-77');
    expect(await page.getByLabel('Expires on').inputValue()).toBe('2030-12-31');
    expect(await violationsInBothThemes(page)).toEqual([]);
    await page.getByLabel('Quantity (pieces)').fill('5');
    await page.keyboard.press('Enter');
    await entered(/Receive: 5 Mechanical seal/).waitFor();
    // The next label can be scanned at once.
    expect(await page.locator(':focus').getAttribute('id')).toBe(await page.getByLabel('Scan or type an item').getAttribute('id'));

    await page.getByRole('radio', { name: 'Issue or move' }).check();
    await page.getByLabel('From', { exact: true }).selectOption({ label: 'North store' });
    await page.getByLabel('To', { exact: true }).selectOption({ label: 'Shelf in quarantine' });
    await page.getByLabel('Scan or type an item').fill('SEAL-35');
    await page.keyboard.press('Enter');
    await page.getByLabel('Quantity (pieces)').fill('9');
    await page.keyboard.press('Enter');
    await page.getByRole('group', { name: 'One answer needs a change' }).waitFor();
    await page
      .getByText(/North store holds 5 of SEAL-35, and 9 are asked for/)
      .first()
      .waitFor();
    expect(await violationsInBothThemes(page)).toEqual([]);
    await page.getByLabel('Quantity (pieces)').fill('2');
    await button('Enter').click();
    await entered(/Issue or move: 2 Mechanical seal/).waitFor();

    await button(/^Take back Issue or move: 2/).click();
    await dialog().getByLabel('Why it is taken back').fill('Wrong shelf');
    await dialog().getByRole('button', { name: 'Take back' }).click();
    await dialog().waitFor({ state: 'detached' });

    await page.goto(`/stock/items/${sealId}`);
    await heading('Mechanical seal');
    await page.getByRole('row', { name: /North store.*L-77/ }).waitFor();
    await page.getByRole('row', { name: /Undone/ }).waitFor();
    expect(await violationsInBothThemes(page)).toEqual([]);
  }, 90_000);

  test('counts a place blind, and looks again where a line is off', async () => {
    await page.goto('/counts');
    await page.getByLabel('Place', { exact: true }).selectOption({ label: 'North store' });
    await button('Begin').click();
    await heading('Count of North store');
    expect(await violationsInBothThemes(page)).toEqual([]);
    for (const _look of ['the first', 'another']) {
      await page.getByLabel('Mechanical seal (pieces)').fill('4');
      await button('Enter what was found').click();
      await page.getByText('Entered.').or(page.getByText('All lines of this page are done.')).first().waitFor();
    }
    await page.getByText('All lines of this page are done.').first().waitFor();
    await button('Close the count').click();
    await dialog().getByRole('button', { name: 'Close the count' }).click();
    await dialog().waitFor({ state: 'detached' });
    await page.goto(`/stock/items/${sealId}`);
    await page.getByRole('row', { name: /Counted/ }).waitFor();
  }, 60_000);

  test('accepts what the list proposes, orders it, and receives it in part', async () => {
    await proposeSeals();
    await page.goto('/reorder');
    const row = page.getByRole('table', { name: /^What to order or bring/ }).getByRole('row', { name: /Mechanical seal/ });
    await row.getByText('Brook Seals').waitFor();
    await page.getByRole('heading', { name: 'Ordered together' }).waitFor();
    expect(await violationsInBothThemes(page)).toEqual([]);
    await row.getByRole('button', { name: /^Change/ }).click();
    await dialog().getByLabel('Quantity (pieces)').fill('8');
    await dialog().getByLabel('Why').fill('A second skid comes');
    await dialog().getByRole('button', { name: 'Change' }).click();
    await dialog().waitFor({ state: 'detached' });
    await page.getByLabel('Show', { exact: true }).selectOption({ label: 'Accepted' });
    await page.getByText('A second skid comes').waitFor();
    await button('Make draft orders of what was accepted').click();
    await page.getByText('1 draft order made').waitFor();
    await page.getByRole('link', { name: /^Order \d+, Brook Seals$/ }).click();
    await heading(/^Order \d+$/);
    await button('Approve').click();
    await button('It was sent').click();
    await page.getByRole('heading', { name: 'Receive' }).waitFor();
    expect(await violationsInBothThemes(page)).toEqual([]);
    await page.getByLabel('Came (pieces)').fill('3');
    await button('Receive').click();
    await page.getByText('Sent, came in part').waitFor();
    await page.getByRole('row', { name: /3 Mechanical seal, good/ }).waitFor();
    await page.goto('/orders');
    await page
      .getByRole('table', { name: /Sent and not all here/ })
      .getByText('Brook Seals')
      .waitFor();
    expect(await violationsInBothThemes(page)).toEqual([]);
  }, 90_000);

  test('says how an item is kept at a place, and changes it', async () => {
    await app.get(Database).prisma.place.create({ data: { name: 'South store', kind: 'store' } });
    await page.goto(`/stock/items/${sealId}`);
    await page.getByText('Say how it is kept at another place').click();
    await page.getByLabel('Place', { exact: true }).selectOption({ label: 'South store' });
    await page.getByLabel('Minimum (pieces)').fill('2');
    await page.getByLabel('Share asked for (%)').fill('97,5');
    await button('Keep it').click();
    const row = page.getByRole('table', { name: /^What was said of this item/ }).getByRole('row', { name: /South store.*at least 2.*97.5 %/ });
    await row.waitFor();
    await row.getByRole('button', { name: /^Change/ }).click();
    expect(await dialog().getByLabel('Share asked for (%)').inputValue()).toBe('97.5');
    expect(await violationsInBothThemes(page)).toEqual([]);
    await dialog().getByLabel('Minimum (pieces)').fill('1');
    await dialog().getByRole('button', { name: 'Keep it' }).click();
    await page.getByRole('row', { name: /South store.*at least 1/ }).waitFor();
  }, 60_000);

  test('sends a part out for repair by its serial number, and takes it back', async () => {
    const { prisma } = app.get(Database);
    const { id: placeId } = await prisma.place.findFirstOrThrow({ where: { name: 'North store' } });
    await prisma.place.create({ data: { name: 'Winding works', kind: 'repair' } });
    const { id: partId } = await prisma.part.create({ data: { itemId: sealId, serialNumber: 'SN-7' } });
    const post = { id: randomUUID(), kind: 'return', at: new Date().toISOString(), moves: [{ itemId: sealId, partId, quantity: '1', toPlaceId: placeId }] };
    expect((await page.request.post('/api/stock/posts', { data: post, headers: { origin: Api.of(app).address } })).status()).toBe(201);
    await page.goto('/stock/repairs');
    await page.getByLabel('Serial number or item').fill('SN-7');
    await page.keyboard.press('Enter');
    await page.getByText('Mechanical seal, serial number SN-7, North store').waitFor();
    await page.getByLabel('Repairer', { exact: true }).selectOption({ label: 'Winding works' });
    await page.getByLabel('What is wrong').fill('It leaks');
    await button('Send it').click();
    await page.getByRole('row', { name: /serial number SN-7.*Winding works.*It leaks/ }).waitFor();
    await button(/^Enter what came of it/).click();
    expect(await violationsInBothThemes(page)).toEqual([]);
    await dialog().getByRole('button', { name: 'Enter it' }).click();
    await page.getByText('Nothing is out for repair.').waitFor();
  }, 60_000);

  test('sends goods to another place, and enters what came', async () => {
    await page.goto('/transfers');
    await page.getByLabel('From', { exact: true }).selectOption({ label: 'North store' });
    await page.getByLabel('To', { exact: true }).selectOption({ label: 'Shelf in quarantine' });
    await page.getByLabel('Scan or type an item').fill('SEAL-35');
    await page.keyboard.press('Enter');
    await page.getByLabel('Quantity (pieces)').fill('2');
    await page.keyboard.press('Enter');
    await button('Send it').click();
    await button(/^Enter what came/).click();
    expect(await violationsInBothThemes(page)).toEqual([]);
    await dialog().getByRole('button', { name: 'Enter what came' }).click();
    await dialog().waitFor({ state: 'detached' });
    await page.getByText('Nothing is on the way.').waitFor();
  }, 60_000);

  test('has a table looked through before anything is written', async () => {
    await page.goto('/stock/tables');
    const rows = 'code,name,kind,unit\nVALVE-9,Check valve,valve,C62\nBAD-1,Odd one,no such kind,C62\n';
    await page.getByLabel('File').setInputFiles({ name: 'items.csv', mimeType: 'text/csv', buffer: Buffer.from(rows) });
    await button('Look through it').click();
    await page.getByRole('row', { name: /no such kind/ }).waitFor();
    expect(await violationsInBothThemes(page)).toEqual([]);
    await button('Take the rows that are right, and leave out the others').click();
    await page.getByText('Taken.').waitFor();
    await page.goto('/stock?find=VALVE-9');
    await page.getByRole('link', { name: 'Check valve' }).waitFor();
  }, 60_000);

  test('finds places and lots without anything that bars the way', async () => {
    await page.goto('/lots');
    await page.getByRole('row', { name: /L-77/ }).waitFor();
    expect(await violationsInBothThemes(page)).toEqual([]);
    await page.goto('/stock/places');
    await page.getByRole('row', { name: /North store/ }).waitFor();
    expect(await violationsInBothThemes(page)).toEqual([]);
  });
});

/** Ten of the seals must always lie in the store, and somebody sells them. */
async function proposeSeals(): Promise<void> {
  const { prisma } = app.get(Database);
  const keeper = await Api.of(app).signIn('storekeeper@example.org', PASSWORD);
  const store = await prisma.place.findFirstOrThrow({ where: { name: 'North store' } });
  const supplier = await keeper.post('/api/suppliers', { name: 'Brook Seals', currency: 'EUR', leadDays: 10 }).expect(201);
  await keeper.post('/api/offers', { itemId: sealId, supplierId: supplier.body.id, purchaseUnit: 'C62', price: '12' }).expect(201);
  const setting = keeper.put(`/api/reorder/items/${sealId}/places/${store.id}/setting`, { minimum: '10' });
  await setting.set('if-match', '"0"').expect(200);
  await app.get(RecomputeReorder).all();
}
