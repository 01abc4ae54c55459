import { wallClockMs } from '../../src/shared/wall-clock.js';
import type { ScenarioPerson, ScenarioServiceEntry, ScenarioSite } from '../types.js';
import type { ScenarioJob, ScenarioVisit } from '../work-types.js';
import { DAY_MS, dayText, MINUTE_MS } from './period.js';
import { randomOf } from './random.js';

interface Plant {
  readonly sites: readonly ScenarioSite[];
  readonly skids: readonly { readonly key: string; readonly siteKey: string }[];
  readonly people: readonly ScenarioPerson[];
  readonly serviceEntries: readonly ScenarioServiceEntry[];
}

const GRACE_DAYS = 14;
/** Where a client has nobody of a name in the demo */
const SOMEBODY = 'Shift leader on duty';

/** The work of the last year by visits: what was done at one site on one day. */
export function pastVisits({ sites, skids, people, serviceEntries }: Plant, fromMs: number): ScenarioVisit[] {
  const siteOfSkid = new Map(skids.map(({ key, siteKey }) => [key, siteKey]));
  const siteOf = new Map(sites.map((site) => [site.key, site]));
  const byDay = new Map<string, { site: ScenarioSite; onDay: string; entries: ScenarioServiceEntry[] }>();
  for (const entry of serviceEntries) {
    const site = siteOf.get(siteOfSkid.get(entry.skidKey) ?? '');
    if (site === undefined || entry.at.getTime() < fromMs) continue;
    const onDay = dayText(wallClockMs(entry.at.getTime(), site.timeZone));
    const key = `${onDay} ${site.key}`;
    const day = byDay.get(key) ?? { site, onDay, entries: [] };
    day.entries.push(entry);
    byDay.set(key, day);
  }
  const inOrder = [...byDay].sort(([a], [b]) => (a < b ? -1 : 1));
  return inOrder.map(([, { site, onDay, entries }]) => {
    const jobs = [...new Set(entries.map(({ skidKey }) => skidKey))].map((skidKey) =>
      jobOf(
        skidKey,
        entries.filter((entry) => entry.skidKey === skidKey),
        site.timeZone,
      ),
    );
    const startMs = Math.min(...jobs.map(({ startedAt }) => startedAt.getTime()));
    const endMs = Math.max(...jobs.map(({ finishedAt }) => finishedAt.getTime()));
    return {
      siteKey: site.key,
      onDay,
      startTime: new Date(wallClockMs(startMs, site.timeZone)).toISOString().slice(11, 16),
      minutes: Math.max(30, Math.round((endMs - startMs) / MINUTE_MS)),
      people: [...new Set(entries.map(({ by }) => by))].sort(),
      finishedAt: new Date(endMs),
      signedBy: people.find(({ clientKey, siteKey }) => clientKey === site.clientKey && (siteKey === null || siteKey === site.key))?.name ?? SOMEBODY,
      jobs,
    };
  });
}

function jobOf(skidKey: string, entries: readonly ScenarioServiceEntry[], timeZone: string): ScenarioJob {
  const inOrder = [...entries].sort((a, b) => a.at.getTime() - b.at.getTime());
  const random = randomOf(`${skidKey} ${inOrder[0]?.at.toISOString()} due`);
  const minutes = inOrder.reduce((sum, entry) => sum + entry.minutes, 0);
  const tasks = inOrder.map(({ positionKey, task, note, at }) => {
    // Most work is done before its latest day; about one in eighteen is late.
    const dueMs = wallClockMs(at.getTime(), timeZone) + Math.round(random.between(-15, 12)) * DAY_MS;
    return { positionKey, task, note, doneAt: at, dueOn: dayText(dueMs), latestOn: dayText(dueMs + GRACE_DAYS * DAY_MS) };
  });
  const [first, last] = [inOrder[0], inOrder.at(-1)];
  if (first === undefined || last === undefined) throw new Error(`The visit to ${skidKey} has no work`);
  return { skidKey, by: first.by, startedAt: new Date(first.at.getTime() - first.minutes * MINUTE_MS), finishedAt: last.at, minutes, tasks };
}
