import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { Page } from 'playwright-core';

const AXE = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const EVERYTHING = { resultTypes: ['violations'], runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'] };
const CONTRAST = { resultTypes: ['violations'], runOnly: { type: 'rule', values: ['color-contrast'] } };

/** What axe finds against the page as it stands, by rule and place. */
async function violations(page: Page, options: object): Promise<string[]> {
  await page.evaluate(AXE);
  const found = (await page.evaluate(`axe.run(document, ${JSON.stringify(options)})`)) as { violations: { id: string; nodes: { target: string[] }[] }[] };
  return found.violations.map(({ id, nodes }) => `${id}: ${nodes.map((node) => node.target.join(' ')).join(', ')}`);
}

/** In the colours of the light and of the dark theme. */
export async function violationsInBothThemes(page: Page): Promise<string[]> {
  const light = await violations(page, EVERYTHING);
  await page.emulateMedia({ colorScheme: 'dark' });
  const dark = await violations(page, CONTRAST);
  await page.emulateMedia({ colorScheme: 'light' });
  return [...light, ...dark.map((line) => `dark ${line}`)];
}
