/** The reorder list of 5,000 items over 40 places on 1,000 skids, from the database: all of it, one item, and a page of the list. */
import { medianOfThree, timeCalls } from './callers.mjs';
import { seedReorder } from './seed-reorder.mjs';

export const name = 'reorder';
/** Brings its own fleet. */
export const seed = seedReorder;
const MINUTES = 5;
const CALLS = 60;

export async function run(context, print) {
  const { asked, ...size } = context.seeded;
  // The first time what items have in common is fitted; then it is kept for a week.
  for (const fit of ['fitted anew', 'kept', 'kept']) {
    const { milliseconds, lines } = await wholeList(context);
    print({ bench: 'reorder', what: 'whole list', fit, ...size, lines, milliseconds });
  }
  for (const [which, id] of Object.entries(asked)) {
    const path = `/api/reorder/items/${id}`;
    const queries = await context.countQueries(path);
    print({ bench: 'reorder', what: 'one item', which, queries, ...(await oneItem(context, path)) });
  }
  for (const callers of [1, 16]) print({ bench: 'reorder', what: 'page of 50', callers, ...(await median(context, '/api/reorder?limit=50', callers)) });
}

const median = (context, path, callers) =>
  medianOfThree(
    () => timeCalls(context, path, callers),
    ({ p99Ms }) => p99Ms,
  );

async function oneItem({ baseUrl, cookie }, path) {
  const times = [];
  for (let call = 0; call < CALLS; call += 1) {
    const from = performance.now();
    const answer = await fetch(`${baseUrl}${path}`, { headers: { cookie } });
    await answer.text();
    if (!answer.ok) throw new Error(`${path}: ${answer.status}`);
    times.push(performance.now() - from);
  }
  const sorted = times.slice(CALLS / 6).sort((a, b) => a - b);
  const at = (share) => Number(sorted[Math.floor(share * (sorted.length - 1))].toFixed(1));
  return { calls: sorted.length, medianMs: at(0.5), p95Ms: at(0.95) };
}

/** Asks for the list and waits until it is there; the time is that of the computation, as the service keeps it. */
async function wholeList({ baseUrl, cookie, databaseUrl }) {
  const { default: pg } = await import('pg');
  const client = new pg.Client({ connectionString: databaseUrl });
  await client.connect();
  const last = async () => (await client.query('SELECT computed_at, lines, milliseconds FROM reorder_run')).rows[0];
  const before = (await last()).computed_at?.getTime();
  const answer = await fetch(`${baseUrl}/api/reorder/recompute`, { method: 'POST', headers: { cookie, origin: baseUrl } });
  if (answer.status !== 202) throw new Error(`The list was not asked for: ${answer.status}`);
  for (let tries = 0; tries < MINUTES * 600; tries += 1) {
    const { computed_at: at, lines, milliseconds } = await last();
    if (at !== null && at.getTime() !== before) {
      await client.end();
      return { lines, milliseconds };
    }
    await new Promise((resolve) => setTimeout(resolve, 100));
  }
  throw new Error(`The list was not made within ${MINUTES} minutes`);
}
