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

/** Tests that need a browser: skipped where there is none, unless one is required. */
export const describeInBrowser = process.env.TEST_SKIP_BROWSER === undefined ? describe : describe.skip;

/** The browser that src/tools/test.mjs found. */
export async function openBrowser(): Promise<Browser> {
  const { TEST_BROWSER: found } = process.env;
  if (found === undefined)
    throw new Error('No browser that runs was found. CHROME_PATH may name one; the tests are run by "npm test -- <path>", which looks for it.');
  const { path, environment } = JSON.parse(found) as { path: string; environment: Record<string, string> };
  return chromium.launch({ executablePath: path, args: FLAGS, env: { ...process.env, ...environment } });
}
