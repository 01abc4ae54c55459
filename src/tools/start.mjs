import { build } from './build.mjs';

await build();
await import('../../dist/src/main.js');
