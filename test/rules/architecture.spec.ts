import { spawnSync } from 'node:child_process';
import { copyFileSync, mkdirSync, mkdtempSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { afterAll, describe, expect, test } from '@jest/globals';
import { globSync } from 'tinyglobby';

const root = join(import.meta.dirname, '../..');
const CONFIG = join(root, '.dependency-cruiser.mjs');

interface Cruise {
  readonly modules: readonly { readonly source: string }[];
  readonly summary: { readonly violations: readonly { readonly rule: { readonly name: string }; readonly from: string; readonly to: string }[] };
}

function cruise(folder: string, ...parts: string[]): Cruise {
  const program = join(root, 'node_modules/dependency-cruiser/bin/dependency-cruise.mjs');
  const { stdout, stderr } = spawnSync(process.execPath, [program, ...parts, '--config', CONFIG, '--output-type', 'json'], {
    cwd: folder,
    encoding: 'utf8',
    maxBuffer: 64 * 1024 ** 2,
  });
  if (stdout === '') throw new Error(stderr);
  return JSON.parse(stdout) as Cruise;
}

const scratch = mkdtempSync(join(tmpdir(), 'skidkeep-rules-'));
afterAll(() => rmSync(scratch, { recursive: true, force: true }));

test('the sources keep the rules, and the check saw every one of them', () => {
  const { modules, summary } = cruise(root, 'src', 'seed');
  expect(summary.violations.map(({ rule, from, to }) => `${rule.name}: ${from} -> ${to}`)).toEqual([]);
  const seen = new Set(modules.map(({ source }) => source));
  const written = globSync(['src/**/*.{ts,tsx}', 'seed/**/*.ts'], { cwd: root, ignore: ['src/generated/**', '**/*.d.ts'] });
  expect(written.length).toBeGreaterThan(100);
  expect(written.filter((file) => !seen.has(file))).toEqual([]);
});

/** Each file breaks the one rule of its line; the files that they import are harmless by themselves. */
const BREACHES: Readonly<Record<string, readonly [file: string, imports: string]>> = {
  'core-is-pure': ['src/intake/core/reads-a-file.ts', 'node:fs'],
  'shared-stands-alone': ['src/shared/knows-a-stage.ts', '../store/core/plain.js'],
  'only-repositories-touch-the-database': ['src/intake/use-case.ts', 'pg'],
  'stages-meet-at-their-index': ['src/portal/inner.ts', '../store/inner.js'],
  'pages-talk-http': ['src/web/reaches-in.ts', '../store/index.js'],
  'server-never-imports-pages': ['src/store/draws.ts', '../web/page.js'],
  'service-never-imports-demo': ['src/store/demo.ts', '../../seed/data.js'],
  'evaluations-use-computation-only': ['src/evaluate/kind/reads.ts', '../../store/inner.js'],
  'service-knows-no-evaluation': ['src/store/evaluates.ts', '../evaluate/plain.js'],
  'no-circular': ['src/jobs/one.ts', './other.js'],
  'not-to-test': ['src/store/tested.ts', '../../test/help.js'],
};
const HARMLESS = [
  'src/evaluate/plain.ts',
  'src/store/core/plain.ts',
  'src/store/inner.ts',
  'src/store/index.ts',
  'src/web/page.ts',
  'seed/data.ts',
  'test/help.ts',
];

describe('a rule', () => {
  const write = (file: string, imports: readonly string[]): void => {
    mkdirSync(dirname(join(scratch, file)), { recursive: true });
    writeFileSync(join(scratch, file), [...imports.map((from, at) => `import * as used${at} from '${from}';`), 'export const here = 1;'].join('\n'));
  };
  const stages = /STAGES = \[([^\]]+)\]/.exec(readFileSync(CONFIG, 'utf8'))?.[1]?.match(/\w+/g) ?? [];
  for (const file of HARMLESS) write(file, []);
  for (const [file, imports] of Object.values(BREACHES)) write(file, [imports]);
  write('src/jobs/other.ts', ['./one.js']);
  write('src/nobody/uses-me.ts', []);
  for (const [at, stage] of stages.slice(0, -1).entries()) {
    write(`src/${stage}/core/early.ts`, [`../../${stages[at + 1]}/core/late.js`]);
    write(`src/${stages[at + 1]}/core/late.ts`, []);
  }
  copyFileSync(join(root, 'tsconfig.json'), join(scratch, 'tsconfig.json'));
  symlinkSync(join(root, 'node_modules'), join(scratch, 'node_modules'));
  const { violations } = cruise(scratch, 'src', 'seed').summary;
  const brokenBy = (file: string): string[] => violations.filter(({ from }) => from === file).map(({ rule }) => rule.name);

  test.each(Object.entries(BREACHES))('%s is seen where it is broken', (name, [file]) => {
    expect(brokenBy(file)).toContain(name);
  });

  test('no-orphans is seen where it is broken', () => {
    expect(brokenBy('src/nobody/uses-me.ts')).toEqual(['no-orphans']);
  });

  test.each(stages.slice(0, -1))('%s-knows-no-later-stage is seen where it is broken', (stage) => {
    expect(brokenBy(`src/${stage}/core/early.ts`)).toContain(`${stage}-knows-no-later-stage`);
  });

  test('is tried for every rule that there is', async () => {
    const { default: config } = (await import(CONFIG)) as { default: { forbidden: readonly { name: string }[] } };
    const seen = new Set(violations.map(({ rule }) => rule.name));
    expect(config.forbidden.map(({ name }) => name).filter((name) => !seen.has(name))).toEqual([]);
  });
});
