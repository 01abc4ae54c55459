import { readDecimal } from '../readings/hand-fields.js';
import { toLocalField } from '../site-time.js';
import { type Draft, entryOf } from './draft.js';

const MINUTE_MS = 60_000;

/** Since when the clock runs; undefined: it stands. */
export function runningSince(draft: Draft): string | undefined {
  return entryOf(draft, 'runningSince') || undefined;
}

const atSite = (draft: Draft, now: Date): string => toLocalField(now.getTime(), draft.sheet.timeZone);

/** The first start is when the work began. */
export function startClock(draft: Draft, now: Date): Draft {
  const startedAt = entryOf(draft, 'startedAt') || atSite(draft, now);
  return { ...draft, entries: { ...draft.entries, startedAt, runningSince: now.toISOString() } };
}

/** Adds what has passed to the minutes worked; whoever waits for a bus stops it, and starts it again later. */
export function stopClock(draft: Draft, now: Date): Draft {
  const since = runningSince(draft);
  if (since === undefined) return draft;
  const passed = Math.max(0, now.getTime() - Date.parse(since)) / MINUTE_MS;
  const minutes = String(Math.round((readDecimal(entryOf(draft, 'minutes')) ?? 0) + passed));
  return { ...draft, entries: { ...draft.entries, minutes, finishedAt: atSite(draft, now), runningSince: '' } };
}

/** As the sheet is sent: the clock stands, and the work has an end. */
export function endOfWork(draft: Draft, now: Date): Draft {
  const stopped = stopClock(draft, now);
  return entryOf(stopped, 'finishedAt') === '' ? { ...stopped, entries: { ...stopped.entries, finishedAt: atSite(stopped, now) } } : stopped;
}
