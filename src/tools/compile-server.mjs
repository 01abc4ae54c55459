import { copyFileSync, mkdirSync, rmSync, writeFileSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { globSync } from 'tinyglobby';
import { root } from './root.mjs';

export const SERVER_SOURCES = ['src/**/*.ts', 'seed/**/*.ts', '!src/web/**', '!**/*.spec.ts'];

/** One JavaScript file for each source, at its own path under dist/, so that imports between src and seed hold; no type is checked. */
export async function compileServer() {
  const { transformFile } = await import('@swc/core');
  const written = new Set();
  const keep = (file) => {
    const output = join(root, 'dist', file);
    mkdirSync(dirname(output), { recursive: true });
    written.add(output);
    return output;
  };
  for (const file of globSync(SERVER_SOURCES, { cwd: root })) {
    const source = join(root, file);
    const { code, map } = await transformFile(source, { configFile: join(root, '.swcrc'), sourceFileName: source });
    const output = keep(file.replace(/\.ts$/, '.js'));
    writeFileSync(output, `${code}\n//# sourceMappingURL=${basename(output)}.map\n`);
    writeFileSync(keep(`${file.replace(/\.ts$/, '.js')}.map`), map ?? '{}');
  }
  for (const file of globSync(['seed/**/*', '!**/*.ts', '!**/*.md'], { cwd: root })) copyFileSync(join(root, file), keep(file));
  // What no source makes any more. Not removed beforehand: a service may be running from here.
  for (const file of globSync(['dist/src/**/*', 'dist/seed/**/*'], { cwd: root, absolute: true })) if (!written.has(join(file))) rmSync(file);
}
