/** For daily work: the pages by Vite on port 5173, the service behind it, built and started anew when a source changes. */
import { spawn } from 'node:child_process';
import { watch } from 'node:fs';
import { join } from 'node:path';
import { createServer } from 'vite';
import { build } from './build.mjs';
import { root } from './root.mjs';

const QUIET_MS = 150; // an editor saves several files at once
const port = process.env.PORT || '3000';

let service;
let stopping = false;

function startService() {
  const child = spawn(process.execPath, [join(root, 'dist/src/main.js')], { cwd: root, stdio: 'inherit', env: process.env });
  const ended = new Promise((resolve) => child.once('exit', resolve));
  return {
    stop: () => {
      child.kill('SIGTERM');
      return ended;
    },
  };
}

async function buildAndStart() {
  try {
    await build({ pages: false });
  } catch (error) {
    console.error(error instanceof Error ? error.message : error); // the old service goes on until the source can be built
    return;
  }
  await service?.stop();
  if (!stopping) service = startService();
}

/** One at a time; changes that come meanwhile are taken together afterwards. */
let running = Promise.resolve();
let timer;
function onChange(_event, name) {
  const file = (name ?? '').replaceAll('\\', '/');
  if (/^(generated|web)\/|\.spec\.tsx?$/.test(file) || !/\.(ts|prisma|sql|json|csv)$/.test(file)) return;
  clearTimeout(timer);
  timer = setTimeout(() => {
    running = running.then(buildAndStart);
  }, QUIET_MS);
}

// Ctrl-C reaches the service as well; this process waits until it has stopped its database.
for (const signal of ['SIGINT', 'SIGTERM']) {
  process.on(signal, () => {
    stopping = true;
    void (service?.stop() ?? Promise.resolve()).then(() => process.exit(0));
  });
}

await buildAndStart();
for (const folder of ['src', 'seed', 'prisma']) watch(join(root, folder), { recursive: true }, onChange);
const pages = await createServer({
  configFile: join(root, 'vite.config.mts'),
  root: join(root, 'src/web'),
  // Not as a bare address, with which Vite would change the Host header, and the service would take the page for a foreign one.
  server: { proxy: { '/api': { target: `http://127.0.0.1:${port}` } } },
});
await pages.listen();
pages.printUrls();
