import { createHash } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import react from '@vitejs/plugin-react';
import { defineConfig, type Plugin } from 'vite';

const PUBLIC = join(import.meta.dirname, 'src/web/public');
const WORKER = join(import.meta.dirname, 'src/web/offline/sw-template.js');

/** Writes /sw.js with the names of the files that the pages need without signal. Of the typeface it keeps the letters that the pages use. */
function serviceWorker(): Plugin {
  return {
    name: 'pages-without-signal',
    apply: 'build',
    enforce: 'post',
    generateBundle(_options, bundle) {
      const built = Object.keys(bundle).filter((file) => /\.(js|css)$/.test(file) || /-latin-wght.*\.woff2$/.test(file));
      const fixed = readdirSync(PUBLIC);
      const files = ['/', ...[...built, ...fixed].map((file) => `/${file}`)].sort();
      const template = readFileSync(WORKER, 'utf8');
      // Built files are named after their content; the others are not.
      const contents = [files.join(), template, ...fixed.map((file) => readFileSync(join(PUBLIC, file), 'utf8'))];
      const version = createHash('sha256').update(contents.join('\0')).digest('hex').slice(0, 12);
      const source = template.replace('__FILES__', JSON.stringify(files)).replace('__VERSION__', version);
      this.emitFile({ type: 'asset', fileName: 'sw.js', source });
    },
  };
}

export default defineConfig({
  root: 'src/web',
  base: '/',
  plugins: [react(), serviceWorker()],
  build: {
    outDir: '../../dist/web',
    emptyOutDir: true,
    target: 'es2022',
    cssTarget: ['chrome123', 'firefox120', 'safari17.5'], // keeps light-dark() as written
    sourcemap: true,
    assetsInlineLimit: 0, // no data: addresses, so that the content security policy stays 'self'
    modulePreload: { polyfill: false },
  },
  server: { port: 5173, strictPort: true }, // the way to the API is added by src/tools/dev.mjs, which knows its port
});
