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

let app: NestFastifyApplication;
let browser: Browser;
let page: Page;
let complaints: string[];
let tankId: string;
let skidId: string;

beforeAll(async () => {
  app = await startTestApp(join(import.meta.dirname, '../../dist/web'));
  ({
    tankId,
    skid: { id: skidId },
  } = await makePageFleet(app, new Date()));
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

const dips = () => app.get(Database).prisma.tankDip.count({ where: { tankId } });
const deliveries = () => app.get(Database).prisma.tankDelivery.findMany({ where: { tankId } });
/** A form of the page of a tank, opened by the words over it. */
async function opened(summary: string) {
  await page.locator('summary', { hasText: summary }).click();
  return page.locator('details', { has: page.locator('summary', { hasText: summary }) });
}

async function openTank(): Promise<void> {
  await signIn(page, 'manager@example.org');
  await goTo(page, 'Chemicals');
  await page.getByRole('link', { name: 'Hypochlorite tank', exact: true }).click();
  await page.getByRole('heading', { name: 'Hypochlorite tank, sodium hypochlorite' }).waitFor();
}

/** What axe finds on a wide screen and on a phone, in both themes, and how far the phone has to be pushed sideways. */
async function violations(): Promise<string[]> {
  const found = [...(await violationsInBothThemes(page))];
  await page.setViewportSize({ width: 390, height: 844 });
  found.push(...(await violationsInBothThemes(page)).map((line) => `phone ${line}`));
  const excess = await page.evaluate('document.documentElement.scrollWidth - document.documentElement.clientWidth');
  if (excess !== 0) found.push(`phone: ${String(excess)} px too wide`);
  await page.setViewportSize({ width: 1440, height: 900 });
  return found;
}

describeInBrowser('the page of a tank', () => {
  test('takes a dip, and refuses one above the height of the tank in words', async () => {
    await openTank();
    const before = await dips();
    const form = await opened('Enter a dip');
    await form.getByLabel('Level, cm').fill('240');
    await form.getByRole('button', { name: 'Write it down' }).click();
    await form
      .getByText(/2\.4 is not between empty and the height of the tank: read the stick again/)
      .first()
      .waitFor();
    expect(await form.getByLabel('Level, cm').inputValue()).toBe('240');
    expect(await dips()).toBe(before);
    expect(await violations()).toEqual([]);

    await form.getByLabel('Level, cm').fill('35');
    await form.getByRole('button', { name: 'Write it down' }).click();
    await form.getByText('Saved.').waitFor();
    expect(await dips()).toBe(before + 1);
    await app.get(Recompute).now(skidId);
    await page.reload();
    await page.getByRole('heading', { name: 'The running balance' }).waitFor();
    await page.getByRole('img', { name: 'Balance of the tank' }).waitFor();
    expect(await violations()).toEqual([]);
  });

  test('warns of the wrong tank before anything is asked, and records a delivery with its label', async () => {
    await openTank();
    const form = await opened('Enter a delivery');
    const [caution, firstField] = [await form.locator('.wrong-tank').boundingBox(), await form.getByLabel('Product, as the label says').boundingBox()];
    expect(caution?.y).toBeLessThan(firstField?.y ?? 0);
    expect(await form.locator('.wrong-tank').textContent()).toContain('This is Hypochlorite tank: sodium hypochlorite, and nothing else.');

    await form.getByLabel('Product, as the label says').fill('citric acid 50 %');
    await form.getByLabel('Delivered, L').fill('200');
    await form.getByRole('button', { name: 'Write it down' }).click();
    await form
      .getByText(/must never go into a tank of sodium hypochlorite: chlorine gas/)
      .first()
      .waitFor();
    expect(await deliveries()).toEqual([]);

    await form.getByLabel('Product, as the label says').fill('Sodium hypochlorite solution');
    await form.getByLabel('What the strength goes by').selectOption('g/L');
    await form.getByLabel('Strength on the label').fill('118');
    await form.getByLabel('Batch').fill('B-7');
    await form.getByRole('button', { name: 'Write it down' }).click();
    await form.getByText('Saved.').waitFor();
    expect(await deliveries()).toEqual([expect.objectContaining({ volumeL: 200, strengthGL: 118, lot: 'B-7', product: 'Sodium hypochlorite solution' })]);
    await page.getByRole('cell', { name: 'B-7' }).waitFor();
    expect(await violations()).toEqual([]);
  });
});

describeInBrowser('the calculators', () => {
  test('answer with the cautions that go with the answer', async () => {
    await signIn(page, 'manager@example.org');
    await page.goto('/calculators');
    const calculator = (name: string) => page.locator('section', { has: page.getByRole('heading', { name, exact: true }) });

    const dose = calculator('Dose of a pump');
    await dose.getByLabel('Dose, mg/L').fill('2');
    await dose.getByLabel('Flow, m³/h').fill('20');
    await dose.getByLabel('Strength of the product').fill('125');
    await dose.getByRole('button', { name: 'Reckon' }).click();
    // 20 m³/h at 2 mg/L is 40 g/h: 0.32 L/h of 125 g/L, by the equation of mass.
    await dose.getByText('0.320 L/h = 5.33 mL/min').waitFor();

    const batch = calculator('Make up a cleaning solution');
    await batch.getByLabel('Volume of the batch, m³').fill('1');
    await batch.getByLabel('Chlorine, mg/L').fill('500');
    await batch.getByLabel('Strength of the product').fill('125');
    await batch.getByRole('button', { name: 'Reckon' }).click();
    await batch.getByText('4.00 L', { exact: true }).waitFor();

    const together = calculator('May they meet?');
    await together.getByLabel('Chemicals, one a line').fill('sodium hypochlorite\ncitric acid');
    await together.getByRole('button', { name: 'Reckon' }).click();
    await together.getByText(/sodium hypochlorite and citric acid: chlorine gas/).waitFor();
    await together.getByLabel('Chemicals, one a line').fill('sodium hypochlorite\nrinse\ncitric acid');
    await together.getByRole('button', { name: 'Reckon' }).click();
    await together.getByText(/^Nothing known speaks against it/).waitFor();
    expect(await violations()).toEqual([]);
  });

  test('reckon CT vessel by vessel, and say where their source ends', async () => {
    await signIn(page, 'manager@example.org');
    await page.goto('/calculators');
    const contact = page.locator('section', { has: page.getByRole('heading', { name: 'CT of post-disinfection' }) });
    const values = {
      'Volume at the lowest level, m³': '20',
      'Flow of the peak hour, m³/h': '40',
      'Free chlorine at its end, mg/L': '1',
      'Temperature, °C': '10',
      pH: '7',
    };
    for (const [label, value] of Object.entries(values)) await contact.getByLabel(label, { exact: true }).fill(value);
    await contact.getByRole('button', { name: 'Reckon with this vessel or pipe' }).click();
    // Half an hour at the rate of poor baffling, 0.3, is nine minutes of contact.
    await contact.getByText(/^T10 9(\.00)? min, CT 9(\.00)? mg·min\/L/).waitFor();
    await page.getByRole('button', { name: 'Forget the 1 before' }).waitFor();
    expect(await violations()).toEqual([]);
  });
});
