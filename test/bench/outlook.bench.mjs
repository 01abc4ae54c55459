/**
 * Outlooks: of one skid with two years of cycles from rows in memory, and of a quarter, a half and all of a fleet with two years of daily aggregates and 5,000 recent cycles a skid, from the database and back. Each
 * size runs in a process of its own; the fleet is in a database of its own.
 */
import { execFile } from 'node:child_process';
import { join } from 'node:path';
import { promisify } from 'node:util';
import { SITES } from '../../dist/seed/data/sites.js';
import { SKIDS } from '../../dist/seed/data/skids.js';
import { courseOf } from '../../dist/seed/generate/course.js';
import { skidOf } from '../../dist/seed/generate/records.js';
import { reportedCycles } from '../../dist/seed/generate/report-cycles.js';
import { daysOfRecord } from '../../dist/src/condition/core/days-of-record.js';
import { drawnSkid } from '../../dist/src/evaluate/handread/drawn-skid.js';
import { asKnownOn } from '../../dist/src/outlook/core/skid/as-known-on.js';
import { outlooksOf } from '../../dist/src/outlook/core/skid/outlooks-of-skid.js';
import { seedOutlooks } from './seed-outlooks.mjs';

export const name = 'outlook';
/** Brings its own fleet. */
export const seed = seedOutlooks;
const RUNS = 15;
const DAY_MS = 86_400_000;

export async function run({ databaseUrl, skids }, print) {
  print({ bench: 'outlook', of: 'one skid, two years of cycles in memory', ...oneSkid() });
  let before;
  for (const size of [skids / 4, skids / 2, skids].map(Math.round)) {
    const { stdout } = await promisify(execFile)(process.execPath, [join(import.meta.dirname, 'outlook-process.mjs'), databaseUrl, String(size)]);
    const figures = JSON.parse(stdout.trim().split('\n').at(-1));
    const growth = before === undefined ? {} : { growth: Number((figures.seconds / before.seconds / (size / before.size)).toPrecision(3)) };
    print({
      bench: 'outlook',
      of: 'all outlooks from the database and back',
      skids: size,
      ...figures,
      msPerSkid: Number(((1000 * figures.seconds) / size).toPrecision(3)),
      ...growth,
    });
    before = { size, seconds: figures.seconds };
  }
}

/** Days from the cycles, then the outlooks of the last day. */
function oneSkid() {
  const [plan] = SKIDS;
  const site = SITES.find(({ key }) => key === plan.siteKey);
  const record = { fromMs: Date.UTC(2024, 0, 1), untilMs: Date.UTC(2024, 0, 1) + 730 * DAY_MS };
  const skid = drawnSkid(plan, site, record, 7);
  const built = { ...skidOf(plan, record, Date.UTC(2020, 0, 1)), scheme: plan.flowScheme, timeZone: site.timeZone };
  const cycles = [...reportedCycles(courseOf(plan, site, record))];
  const times = Array.from({ length: RUNS }, () => {
    const from = performance.now();
    const days = daysOfRecord(built, cycles, []).map(({ permeability, ...day }) => ({ ...day, permeability: permeability?.median ?? null }));
    const daysAt = performance.now();
    const lastDay = days.at(-1).day;
    const then = asKnownOn(lastDay, skid.facts, { ...skid.logged, days });
    const said = outlooksOf(then.known, new Date(`${lastDay}T12:00:00Z`), then.days, then.cleans, then.sets);
    return { days: daysAt - from, outlooks: performance.now() - daysAt, said: said.length };
  });
  const middle = (of) =>
    Number(
      times
        .map(of)
        .sort((one, other) => one - other)
        [Math.floor(RUNS / 2)].toPrecision(3),
    );
  return {
    cycles: cycles.length,
    outlooks: times[0].said,
    medianMs: middle(({ days, outlooks }) => days + outlooks),
    daysMedianMs: middle(({ days }) => days),
    outlooksMedianMs: middle(({ outlooks }) => outlooks),
  };
}
