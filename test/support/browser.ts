import { describe } from '@jest/globals';
import { type Browser, chromium } from 'playwright-core';

const FLAGS = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
];

/** Tests that need a browser: skipped where there is none, unless REQUIRE_BROWSER makes that a failure. */
export const describeInBrowser = process.env.TEST_NO_BROWSER !== undefined && !process.env.REQUIRE_BROWSER ? describe.skip : describe;

/** The browser that src/tools/test.mjs found. */
export async function openBrowser(): Promise<Browser> {
  const { TEST_BROWSER: found, TEST_NO_BROWSER: reason } = process.env;
  if (found === undefined) throw new Error(reason ?? 'Run the tests with "npm test -- <path>": it finds the browser');
  const { path, environment } = JSON.parse(found) as { path: string; environment: Record<string, string> };
  return chromium.launch({ executablePath: path, args: FLAGS, env: { ...process.env, ...environment } });
}
