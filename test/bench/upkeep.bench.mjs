/** Due list and load chart of 1,000 skids with 20 rules each, over HTTP, on a database of their own: times and number of queries. */
import { medianOfThree, timeCalls } from './callers.mjs';
import { seedDues } from './seed-dues.mjs';

export const name = 'upkeep';
/** Brings its own fleet. */
export const seed = seedDues;
const PAGES = ['/api/dues?limit=50', '/api/dues?limit=50&standing=steady', '/api/upkeep/load'];

export async function run(context, print) {
  for (const path of PAGES) {
    const queries = await context.countQueries(path);
    for (const callers of [1, 16]) {
      const figures = await medianOfThree(
        () => timeCalls(context, path, callers),
        ({ p99Ms }) => p99Ms,
      );
      print({ bench: 'upkeep', path, ...context.seeded, queries, ...figures });
    }
  }
}
