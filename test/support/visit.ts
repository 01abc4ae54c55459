import type { Browser, Page } from 'playwright-core';
import { PASSWORD } from './page-fleet.js';

export interface Looks {
  readonly width?: number;
  readonly scheme?: 'light' | 'dark';
}

export interface Visit {
  readonly page: Page;
  /** What the browser complained of: refused by the content security policy, thrown, or warned */
  readonly complaints: string[];
}

/** A window of its own, without anybody signed in. Narrow ones are phones. */
export async function openPage(browser: Browser, address: string, { width = 1440, scheme = 'light' }: Looks = {}): Promise<Visit> {
  const isPhone = width < 700;
  const context = await browser.newContext({
    baseURL: address,
    viewport: { width, height: isPhone ? 844 : 900 },
    colorScheme: scheme,
    isMobile: isPhone,
    hasTouch: isPhone,
    locale: 'en-GB',
    timezoneId: 'America/Denver', // no site of the tests lies there: a date in the zone of the device would show
  });
  const page = await context.newPage();
  page.setDefaultTimeout(10_000);
  const complaints: string[] = [];
  page.on('pageerror', (error) => complaints.push(error.message));
  page.on('console', (message) => {
    // An answer such as "nobody is signed in" is told by the browser as well; the pages tell it to the reader.
    if (['error', 'warning'].includes(message.type()) && !message.text().startsWith('Failed to load resource')) complaints.push(message.text());
  });
  return { page, complaints };
}

export async function signIn(page: Page, email: string): Promise<void> {
  await page.goto('/');
  await page.getByLabel('Email address').fill(email);
  await page.getByLabel('Password').fill(PASSWORD);
  await page.getByRole('button', { name: 'Sign in' }).click();
  await page.getByRole('button', { name: 'Sign out' }).waitFor();
}

/** Follows a link of the strip, also where it stands among those that open under it. */
export async function goTo(page: Page, name: string): Promise<void> {
  const link = page.getByRole('navigation', { name: 'Main' }).getByRole('link', { name, exact: true });
  if ((await link.count()) === 0) await page.getByRole('navigation', { name: 'Main' }).locator('summary').click();
  await link.click();
}
