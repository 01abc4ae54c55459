/** Finds a browser for the tests, and what it needs in its environment. Run by itself, it prints the program or exits with 1. */
import { spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { root } from './root.mjs';

const USUAL_PLACES = [
  '/usr/bin/chromium',
  '/usr/bin/chromium-browser',
  '/usr/bin/google-chrome-stable',
  '/usr/bin/google-chrome',
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
  '/Applications/Chromium.app/Contents/MacOS/Chromium',
  'C:\\Program Files\\Google\\Chrome\\Application\\chrome.exe',
];

/** CHROME_PATH, else the usual places, else the browser inside the npm package (Linux on x64). Undefined: there is none that runs. */
export async function findBrowser() {
  const given = process.env.CHROME_PATH;
  if (given) return runs({ path: given, environment: {} });
  for (const path of USUAL_PLACES) {
    const found = existsSync(path) && runs({ path, environment: {} });
    if (found) return found;
  }
  return process.platform === 'linux' && process.arch === 'x64' ? runs(await unpackBrowser(join(root, '.cache/browser'))) : undefined;
}

function runs(browser) {
  const { status } = spawnSync(browser.path, ['--version'], { env: { ...process.env, ...browser.environment }, timeout: 20_000 });
  return status === 0 ? browser : undefined;
}

/**
 * The package unpacks into the temporary folder, where another user's copy would stand in the way, and brings the libraries
 * that a bare machine lacks only when it takes the machine for a Lambda: both are arranged here, and undone,
 * since the variables would reach everything else.
 */
async function unpackBrowser(folder) {
  mkdirSync(folder, { recursive: true });
  const before = { ...process.env };
  Object.assign(process.env, { TMPDIR: folder, AWS_EXECUTION_ENV: 'AWS_Lambda_nodejs20.x' });
  try {
    const { default: packaged } = await import('@sparticuz/chromium');
    const path = await packaged.executablePath();
    const { LD_LIBRARY_PATH } = process.env;
    return { path, environment: { LD_LIBRARY_PATH, FONTCONFIG_FILE: writeFontList(folder) } };
  } finally {
    for (const name of Object.keys(process.env)) if (!(name in before)) delete process.env[name];
    Object.assign(process.env, before);
  }
}

/** The package's own list names /tmp/fonts, where nothing is; without any font to fall back on, the browser dies of the first page that brings its own. */
function writeFontList(folder) {
  const file = join(folder, 'fonts.conf');
  const folders = [join(folder, 'fonts'), '/usr/share/fonts'].map((each) => `<dir>${each.replaceAll('&', '&amp;').replaceAll('<', '&lt;')}</dir>`);
  writeFileSync(file, `<?xml version="1.0"?>\n<fontconfig>${folders.join('')}<cachedir prefix="xdg">fontconfig</cachedir></fontconfig>\n`);
  return file;
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const found = await findBrowser();
  console.log(found?.path ?? 'no browser');
  process.exitCode = found === undefined ? 1 : 0;
}
