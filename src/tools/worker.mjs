import { build } from './build.mjs';

process.env.ROLE = 'worker';
await build({ pages: false });
await import('../../dist/src/main.js');
