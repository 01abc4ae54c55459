import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from '@jest/globals';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import type { Browser } from 'playwright-core';
import { FirstManager } from '../../src/people/index.js';
import { Api } from '../support/api.js';
import { describeInBrowser, openBrowser } from '../support/browser.js';
import { startTestApp } from '../support/test-app.js';
import { openPage } from '../support/visit.js';

let app: NestFastifyApplication;
let browser: Browser;

beforeAll(async () => {
  app = await startTestApp(join(import.meta.dirname, '../../dist/web'));
  browser = await openBrowser();
}, 60_000);
afterAll(async () => {
  await browser?.close();
  await app?.close();
});

describeInBrowser('an empty service', () => {
  test('gets its first manager by the link that it prints, who finds where to begin', async () => {
    const link = await app.get(FirstManager).linkIfNeeded();
    const { page, complaints } = await openPage(browser, Api.of(app).address);
    await page.goto(link ?? '');
    await page.getByLabel('Your name').fill('Ada Brisk');
    await page.getByLabel('Email address').fill('ada@example.org');
    await page.getByLabel('Password').fill('lakes and longer lanes');
    await page.getByRole('button', { name: 'Make the account' }).click();
    await page.getByText('No skids yet.').waitFor();
    await page.getByRole('link', { name: 'Register a client, a site and its skids.' }).click();
    await page.getByText('No clients yet.').waitFor();
    expect(await page.getByText('Demo data').count()).toBe(0);
    await page.context().close();
    expect(complaints).toEqual([]);
  });
});
