/** What tools say about the code; the rules that are ours are tests, in test/rules. Two steps at a time; each prints what it took. */
import { spawn } from 'node:child_process';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from './build.mjs';
import { root } from './root.mjs';

const STEPS = [
  ['format and lint', 'biome', 'ci', '--error-on-warnings', '.'],
  ['the described API', 'node', 'src/tools/openapi.mjs', '--check'],
  ['types', 'tsc', '-p', 'tsconfig.json'],
  ['types of the pages', 'tsc', '-p', 'tsconfig.web.json'],
  ['promises', 'oxlint', '--type-aware', '--deny-warnings'],
  ['unused code', 'knip'],
  ['schema and migrations', 'node', 'src/tools/drift.mjs'],
];
const AT_ONCE = 2;

/** Answers with the names of the steps that failed; their output has been printed. */
export async function check() {
  await build();
  const waiting = [...STEPS];
  const failed = [];
  const work = async () => {
    for (let step = waiting.shift(); step !== undefined; step = waiting.shift()) if (!(await run(step))) failed.push(step[0]);
  };
  await Promise.all(Array.from({ length: AT_ONCE }, work));
  return failed;
}

async function run([name, tool, ...args]) {
  const startedAt = performance.now();
  const [program, options] = tool === 'node' ? [process.execPath, {}] : [join('node_modules/.bin', tool), { shell: process.platform === 'win32' }];
  const child = spawn(program, args, { cwd: root, stdio: ['ignore', 'pipe', 'pipe'], ...options });
  let output = '';
  for (const stream of [child.stdout, child.stderr]) stream.setEncoding('utf8').on('data', (text) => (output += text));
  const code = await new Promise((resolve) => child.once('close', resolve));
  const seconds = ((performance.now() - startedAt) / 1000).toFixed(1);
  console.error(code === 0 ? `ok    ${name} (${seconds} s)` : `${output}\nFAIL  ${name}: ${tool} ${args.join(' ')} (${seconds} s)`);
  return code === 0;
}

if (process.argv[1] === fileURLToPath(import.meta.url)) process.exitCode = (await check()).length > 0 ? 1 : 0;
