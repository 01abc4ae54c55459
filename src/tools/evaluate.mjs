/** `npm run evaluate -- <kind> [options]`: the methods of this service on data that anyone can bring, as JSON lines. `--help` after a kind says what it takes. */
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { parseArgs } from 'node:util';
import { globSync } from 'tinyglobby';
import { build } from './build.mjs';
import { root } from './root.mjs';

const kinds = globSync('src/evaluate/*/index.ts', { cwd: root })
  .map((file) => file.split('/').at(-2))
  .sort((one, two) => one.localeCompare(two));
const [kind, ...args] = process.argv.slice(2);
if (kind === undefined || !kinds.includes(kind)) {
  console.error(`${kind === undefined ? 'Say what to evaluate' : `"${kind}" is nothing to evaluate`}: one of ${kinds.join(', ')}`);
  process.exit(2);
}

await build({ pages: false });
const { help, options, evaluate } = await import(pathToFileURL(join(root, 'dist/src/evaluate', kind, 'index.js')).href);
let values;
try {
  values = parseArgs({ args, options: { ...options, help: { type: 'boolean' } } }).values;
} catch (error) {
  refuse(error.message);
}
if (values.help) {
  console.log(help.trim());
} else {
  const files = Object.entries(values).flatMap(([name, value]) => (options[name]?.file === true ? String(value).split(',') : []));
  for (const file of files) if (!existsSync(file)) refuse(`There is no file ${file}`);
  try {
    await evaluate(values, (line) => console.log(JSON.stringify(line)));
  } catch (error) {
    // What is wrong with a file or an option is told in words; anything else is a fault of ours and keeps its stack.
    if (error.name !== 'BadInput') throw error;
    refuse(error.message);
  }
}

function refuse(message) {
  console.error(`${message}\n\n${help.trim()}`);
  process.exit(2);
}
