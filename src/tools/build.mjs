/** Builds dist/: the Prisma client, the server (src and seed) and the pages. Parts whose inputs have not changed are left alone. */
import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { globSync } from 'tinyglobby';
import { compileServer, SERVER_SOURCES } from './compile-server.mjs';
import { root } from './root.mjs';

/** Runs `work` only when one of the files, or a package version, differs from the last build. */
async function part(name, patterns, work) {
  const hash = createHash('sha256');
  for (const file of globSync(['package-lock.json', 'src/tools/*.mjs', ...patterns], { cwd: root, dot: true }).sort()) {
    hash.update(`${file}\0`).update(readFileSync(join(root, file)));
  }
  const wanted = hash.digest('hex');
  const stamp = join(root, 'dist', `.${name}.hash`);
  if (existsSync(stamp) && readFileSync(stamp, 'utf8') === wanted) return;
  const startedAt = performance.now();
  await work();
  mkdirSync(dirname(stamp), { recursive: true });
  writeFileSync(stamp, wanted);
  console.error(`built ${name} in ${((performance.now() - startedAt) / 1000).toFixed(1)} s`);
}

/** `pages: false` leaves the pages out: in daily work Vite serves them. */
export async function build({ pages = true } = {}) {
  const schema = 'prisma/schema/*.prisma';
  // The stamp outlives the folder where somebody cleans up by hand.
  if (!existsSync(join(root, 'src/generated/prisma'))) rmSync(join(root, 'dist/.client.hash'), { force: true });
  await part('client', [schema], async () => {
    rmSync(join(root, 'src/generated'), { recursive: true, force: true });
    const { generatePrismaClient } = await import('./prisma-client.mjs');
    await generatePrismaClient(join(root, 'prisma/schema'));
  });
  await part('server', ['.swcrc', schema, 'seed/**', ...SERVER_SOURCES, '!src/generated/**'], compileServer);
  if (!pages || !existsSync(join(root, 'src/web/index.html'))) return;
  await part('pages', ['vite.config.mts', 'tsconfig.web.json', 'src/web/**', 'src/shared/**'], async () => {
    const vite = await import('vite');
    await vite.build({ configFile: join(root, 'vite.config.mts'), root: join(root, 'src/web'), logLevel: 'warn' });
    const { compressFolder } = await import('./compress.mjs');
    compressFolder(join(root, 'dist/web'));
  });
}

if (process.argv[1] === fileURLToPath(import.meta.url)) await build();
