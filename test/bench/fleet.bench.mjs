/** Fleet and due list: times over HTTP and number of queries, on the seeded fleet. */
import { medianOfThree, timeCalls } from './callers.mjs';

export const name = 'fleet';
const PAGES = ['/api/fleet?limit=50', '/api/dues?limit=50'];

export async function run(context, print) {
  for (const path of PAGES) {
    const queries = await context.countQueries(path);
    for (const callers of [1, 16]) {
      const figures = await medianOfThree(
        () => timeCalls(context, path, callers),
        ({ medianMs }) => medianMs,
      );
      print({ bench: 'page', path, skids: context.skids, queries, ...figures });
    }
  }
}
