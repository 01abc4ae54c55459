/**
 * Checks, then tests. With arguments, as in `npm test -- test/http/fleet.spec.ts`, only jest runs, with these arguments.
 * TEST_DATABASE_URL (a user who may make databases and roles) adds a run of the HTTP tests on that server.
 */
import { spawn } from 'node:child_process';
import { join } from 'node:path';
import { findBrowser } from './browser.mjs';
import { build } from './build.mjs';
import { check } from './check.mjs';
import { root } from './root.mjs';
import { makeTemplate, startOwnServer } from './test-servers.mjs';

const asked = process.argv.slice(2);
const failedChecks = await prepare();

const given = process.env.TEST_DATABASE_URL;
const own = await startOwnServer();
const templates = { own: await makeTemplate(own.adminUrl), ...(given && { given: await makeTemplate(given) }) };

/** Builds and checks; answers with the names of the checks that failed. With arguments, builds what they need. */
async function prepare() {
  try {
    if (asked.length === 0) return await check();
    await build({ pages: asked.some((argument) => argument.includes('browser')) });
    return [];
  } catch (error) {
    console.error(error);
    console.log('failed before the tests: the build\n0 passed, 1 failed, 0 skipped');
    return process.exit(1);
  }
}

/** Without a browser its tests are skipped, and fail where one is required. */
function browserFor(found) {
  if (found !== undefined) return { TEST_BROWSER: JSON.stringify(found) };
  return process.env.REQUIRE_BROWSER ? {} : { TEST_SKIP_BROWSER: 'no browser that runs was found; CHROME_PATH may name one' };
}

// Ctrl-C reaches jest as well; this process stays to stop the database.
for (const signal of ['SIGINT', 'SIGTERM']) process.on(signal, () => {});
const jest = spawn(
  process.execPath,
  ['--experimental-vm-modules', '--disable-warning=ExperimentalWarning', join(root, 'node_modules/jest/bin/jest.js'), ...asked],
  {
    cwd: root,
    stdio: 'inherit',
    env: {
      ...process.env,
      // A build of the pages leaves `production` behind, in which React has no tools for tests.
      NODE_ENV: 'test',
      TEST_SERVERS: JSON.stringify({
        own: { adminUrl: own.adminUrl, template: templates.own.template },
        ...(given && { given: { adminUrl: given, template: templates.given.template } }),
      }),
      TEST_FAILED_CHECKS: JSON.stringify(failedChecks),
      ...browserFor(await findBrowser()),
    },
  },
);
const code = await new Promise((resolve) => jest.once('exit', (exit) => resolve(exit ?? 1)));
// On a given server the databases of a run that failed are kept, to look into.
if (code === 0) await templates.given?.drop();
for (const template of Object.values(templates)) await template.close().catch(() => {});
await own.stop();
process.exit(code === 0 && failedChecks.length > 0 ? 1 : code);
