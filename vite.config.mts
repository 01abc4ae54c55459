import react from '@vitejs/plugin-react';
import { defineConfig } from 'vite';

export default defineConfig({
  root: 'src/web',
  base: '/',
  plugins: [react()],
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
