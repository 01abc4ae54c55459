import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { afterAll, beforeAll, expect, test } from '@jest/globals';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import type { Browser, Page } from 'playwright-core';
import { Api } from '../support/api.js';
import { describeInBrowser, openBrowser } from '../support/browser.js';
import { makePageFleet } from '../support/page-fleet.js';
import { startTestApp } from '../support/test-app.js';
import { violationsInBothThemes } from '../support/violations.js';
import { openPage, signIn } from '../support/visit.js';

const PAGES = join(import.meta.dirname, '../../dist/web');
const WIDTHS = [320, 390, 768, 1440];

let app: NestFastifyApplication;
let browser: Browser;
let address: string;
let places: Record<string, string>;

beforeAll(async () => {
  app = await startTestApp(PAGES);
  address = Api.of(app).address;
  const { skid } = await makePageFleet(app, new Date());
  const ofSkid = `/skids/${skid.id}`;
  places = {
    fleet: '/',
    skid: ofSkid,
    'my work': '/work',
    'unknown job sheet': '/work/00000000-0000-7000-8000-000000000000',
    'due list': '/dues',
    visits: '/visits',
    'unknown visit': '/visits/00000000-0000-7000-8000-000000000000',
    jobs: '/jobs',
    'unknown job': '/jobs/00000000-0000-7000-8000-000000000000',
    'new job': `${ofSkid}/new-job`,
    fouling: `${ofSkid}/fouling`,
    outlooks: '/outlooks',
    'week plan': '/plan',
    'what visits cost': '/plan/rates',
    'ways between sites': '/plan/travel',
    breakdowns: '/breakdowns',
    'report of a breakdown': `${ofSkid}/breakdown`,
    chemicals: '/chemicals',
    'load a log': `${ofSkid}/load`,
    'log profiles': `${ofSkid}/profiles`,
    'hand readings': `${ofSkid}/readings`,
    'back-log': `${ofSkid}/back-log`,
    'hand sheet': `${ofSkid}/sheet`,
    'choice of a skid': '/readings',
    registry: '/registry',
    'registry of a skid': `/registry/skids/${skid.id}`,
    people: '/people',
    units: '/units',
    'unknown address': '/nowhere',
    'unknown skid': '/skids/00000000-0000-7000-8000-000000000000',
  };
  browser = await openBrowser();
}, 120_000);
afterAll(async () => {
  await browser?.close();
  await app?.close();
});

/** A page is there when it has a heading and nothing on it is still on its way. */
const visit = async (page: Page, path: string) => {
  await page.goto(path);
  await page.locator('h1').waitFor();
  await settled(page);
};
const settled = (page: Page) => page.locator('.hold').first().waitFor({ state: 'detached' });

describeInBrowser('every page', () => {
  test.each([
    ['a wide screen', 1440],
    ['a phone', 390],
  ])(
    'can be used by everybody and keeps to the content security policy on %s',
    async (_, width) => {
      const { page, complaints } = await openPage(browser, address, { width });
      await visit(page, '/');
      const found: Record<string, string[]> = { 'sign-in': await violationsInBothThemes(page) };
      await signIn(page, 'manager@example.org');
      for (const [name, path] of Object.entries(places)) {
        await visit(page, path);
        for (const summary of (await page.locator('summary').all()).slice(0, 4)) if (await summary.isVisible()) await summary.click();
        await settled(page);
        found[name] = await violationsInBothThemes(page);
      }
      await page.context().close();
      expect(Object.entries(found).filter(([, list]) => list.length > 0)).toEqual([]);
      expect(complaints).toEqual([]);
    },
    180_000,
  );

  test('fits into its window at every width, without scrolling sideways', async () => {
    const { page } = await openPage(browser, address);
    await signIn(page, 'manager@example.org');
    const tooWide: string[] = [];
    for (const [name, path] of Object.entries(places)) {
      await visit(page, path);
      for (const width of WIDTHS) {
        await page.setViewportSize({ width, height: 900 });
        await page.evaluate('new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)))'); // the charts measure their new room
        const excess = await page.evaluate('document.documentElement.scrollWidth - document.documentElement.clientWidth');
        if (excess !== 0) tooWide.push(`${name} at ${width} px: ${String(excess)}`);
      }
    }
    await page.context().close();
    expect(tooWide).toEqual([]);
  }, 120_000);
});

describeInBrowser('the skid page', () => {
  test('weighs less than 130 kB of scripts and styles, compressed', async () => {
    const { page } = await openPage(browser, address);
    await signIn(page, 'manager@example.org');
    const files = new Set<string>();
    page.on('request', (request) => {
      const { pathname } = new URL(request.url());
      if (/\.(js|css)$/.test(pathname)) files.add(pathname);
    });
    await visit(page, places.skid ?? '');
    await page.context().close();
    expect(files.size).toBeGreaterThan(2);
    const sizes = [...files].map((file) => gzipSync(readFileSync(join(PAGES, file))).length);
    expect(sizes.reduce((sum, size) => sum + size, 0)).toBeLessThan(130_000);
  });

  test('can be walked through with the keyboard, and shows where one is', async () => {
    const { page } = await openPage(browser, address);
    await signIn(page, 'manager@example.org');
    await visit(page, places.skid ?? '');
    await page.keyboard.press('Tab');
    expect(await page.evaluate('document.activeElement.textContent')).toBe('Skip to content');
    const unseen: string[] = [];
    for (let stop = 0; stop < 30; stop++) {
      await page.keyboard.press('Tab');
      const ring = await page.evaluate(`(() => {
        const element = document.activeElement;
        const { outlineStyle, outlineWidth } = getComputedStyle(element.matches('.choice input') ? element.nextElementSibling : element);
        return outlineStyle !== 'none' && parseFloat(outlineWidth) >= 2 ? '' : element.outerHTML.slice(0, 80);
      })()`);
      if (ring !== '') unseen.push(String(ring));
    }
    await page.context().close();
    expect(unseen).toEqual([]);
  });

  test('prints light, without its controls, whatever the screen shows', async () => {
    const { page } = await openPage(browser, address, { scheme: 'dark' });
    await signIn(page, 'manager@example.org');
    await visit(page, places.skid ?? '');
    await page.emulateMedia({ media: 'print' });
    expect(await page.evaluate('getComputedStyle(document.documentElement).backgroundColor')).toBe('rgb(255, 255, 255)');
    expect(await page.getByRole('button', { name: 'Sign out' }).isVisible()).toBe(false);
    expect(await page.getByRole('slider').first().isVisible()).toBe(false);
    expect(await page.locator('.plot').first().isVisible()).toBe(true);
    await page.context().close();
  });
});
