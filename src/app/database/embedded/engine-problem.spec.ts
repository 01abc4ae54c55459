import { expect, test } from '@jest/globals';
import { engineProblem } from './engine-problem.js';

// The first lines as PostgreSQL 18.4 writes them.
test.each([
  ['initdb: error: could not create directory "/d/pg_wal": No space left on device', /^The disk with the data folder \/d is full/],
  ['PANIC:  could not write to file "pg_wal/xlogtemp.77": No space left on device', /is full/],
  ['initdb: error: could not access directory "/d": Permission denied', /may not be written by the user that runs PostgreSQL/],
  ['FATAL:  data directory "/d" has wrong ownership\nHINT:  The server must be started by the user that owns the data directory.', /may not be written/],
  ['FATAL:  database files are incompatible with server\nDETAIL:  The data directory was initialized by PostgreSQL version 17', /another major version/],
  ['LOG:  starting\nFATAL:  unrecognized configuration parameter "x"\nLOG:  shut down', /did not start: FATAL: {2}unrecognized configuration parameter "x"$/],
])('PostgreSQL says %j', (said, sentence) => {
  expect(engineProblem(said, '/d').message).toMatch(sentence);
});
