import { median } from 'd3-array';
import { DAY_MS, dayText } from '../../../seed/generate/period.js';
import { asKnownOn, type RecordOfSkid } from '../../outlook/core/skid/as-known-on.js';
import type { KeptLife } from '../../outlook/core/skid/kept-life.js';
import type { OutlookToStore } from '../../outlook/core/skid/known-of-skid.js';
import { cloggingLives, type Learned, outlooksOf } from '../../outlook/core/skid/outlooks-of-skid.js';
import { dayPlus, daysBetween } from '../../shared/day.js';
import type { Scored } from '../forecast-scores.js';
import { simpleAhead } from '../membrane/simple.js';
import { learnedBy, type PastOutlook } from './as-learned.js';
import { daysOf, pointsSince, type Said, simpleDays, valueOnPath } from './forecasts.js';
import type { SweptSkid, TrueRun } from './swept-skid.js';

/** A forecast held against the truth. */
export interface HandScore extends Scored {
  readonly signal: 'membranes' | 'cartridges';
  readonly method: string;
  /** `to limit`: days, at a share of the life; `ahead`: a value, so many days ahead */
  readonly measure: 'to limit' | 'ahead';
  readonly at: number;
}

export interface Swept {
  readonly scores: readonly HandScore[];
  /** Questions put, and those that ours answered, by signal */
  readonly asked: Readonly<Record<HandScore['signal'], { asked: number; answered: number }>>;
}

const FIRST_DAYS = 60;
const EVERY_DAYS = 7;
/** How often what all skids taught is learned anew; in the service it is more often. */
const LEARNED_EVERY_WEEKS = 8;
const SHARES = [0.3, 0.5, 0.7, 0.9] as const;
const AHEAD_DAYS = [14, 30, 60] as const;
/** Medians of the days around one ahead */
const AROUND_DAYS = 2;

/** Forecasts every skid in every week of its record from what was known then: `recordAt` says what that is. */
export function sweep<Skid extends SweptSkid>(
  skids: readonly Skid[],
  recordAt: (skid: Skid, ms: number) => RecordOfSkid,
  fromMs: number,
  untilMs: number,
): Swept {
  const scores: HandScore[] = [];
  const asked = { membranes: { asked: 0, answered: 0 }, cartridges: { asked: 0, answered: 0 } };
  const past: PastOutlook[] = [];
  const lives: KeptLife[] = skids.flatMap((skid) => cloggingLives(recordAt(skid, untilMs).days, skid.logged.sets, skid.facts.cartridgeLimitKpa));
  let learned: Learned | undefined;
  for (let week = 0, ms = fromMs + FIRST_DAYS * DAY_MS; ms < untilMs; ms += EVERY_DAYS * DAY_MS, week += 1) {
    if (learned === undefined || week % LEARNED_EVERY_WEEKS === 0) {
      const records = skids.map((skid) => ({ unit: skid.key, areaM2: skid.facts.areaM2 ?? 0, changes: [], ...recordAt(skid, ms) }));
      learned = learnedBy(ms, dayText(ms), records, lives, past);
    }
    for (const skid of skids) {
      const record = recordAt(skid, ms);
      const lastDay = record.days.findLast(({ day }) => day < dayText(ms))?.day;
      if (lastDay === undefined) continue;
      const then = asKnownOn(lastDay, { ...skid.facts, skidId: skid.key }, record);
      const outlooks = outlooksOf(then.known, new Date(`${lastDay}T12:00:00Z`), then.days, then.cleans, then.sets, learned);
      const daysAfter = daysBetween(lastDay, dayText(ms)) - 0.5 + (ms % DAY_MS) / DAY_MS;
      for (const run of skid.runs) {
        if (run.fromMs > ms - DAY_MS || run.metMs <= ms || (run.renewedMs !== null && run.renewedMs <= ms)) continue;
        const signal = run.subject === 'membranes' ? 'membranes' : 'cartridges';
        const outlook = outlooks.find(({ subject }) => subject === run.subject);
        const shared = { signal, life: run.life } as const;
        const says = outlook === undefined ? null : daysOf(outlook, daysAfter);
        if (outlook?.kind === 'outlook') past.push(asPast(outlook, run, lastDay));
        const u = (ms - run.fromMs) / (run.metMs - run.fromMs);
        const at = SHARES.find((share) => Math.abs(u - share) <= 0.1);
        const limit = outlook?.limitValue;
        if (at !== undefined) {
          asked[signal].asked += 1;
          asked[signal].answered += Number(says !== null);
          const truth = (run.metMs - ms) / DAY_MS;
          if (says !== null) scores.push({ ...shared, ...says, truth, method: 'ours', measure: 'to limit', at });
          const points = pointsSince(then, dayText(run.fromMs), signal === 'membranes' ? 'permeability' : 'cartridgeDpKpa');
          const simple = limit === undefined ? {} : simpleDays(points, limit, (ms - run.fromMs) / DAY_MS, usualDays(skids, run, signal, ms), daysAfter);
          for (const [method, said] of Object.entries(simple)) scores.push({ ...shared, ...said, truth, method, measure: 'to limit', at });
        }
        if (signal === 'membranes') for (const score of aheadScores(skid, run, then, outlook, ms)) scores.push({ ...shared, ...score, measure: 'ahead' });
      }
    }
  }
  return { scores, asked };
}

/** As the record of the service would keep it, had the limit been met. */
function asPast(
  { model, modelVersion, p10Days, p50Days, p90Days, stretch }: OutlookToStore,
  { life, metMs, renewedMs }: TrueRun,
  originDay: string,
): PastOutlook {
  const truthDays = daysBetween(originDay, dayText(metMs));
  const known = renewedMs === null || metMs <= renewedMs ? metMs : Number.POSITIVE_INFINITY;
  return { model: `${model} ${modelVersion}`, life, p10Days, p50Days, p90Days, stretch, truthDays, metMs: known };
}

/** How many days such runs lasted that were over by then, those of the same skid alone where there are any. */
function usualDays(skids: readonly SweptSkid[], run: TrueRun, signal: HandScore['signal'], ms: number): number[] {
  const over = skids.flatMap(({ key, runs }) =>
    runs.flatMap(({ subject, fromMs, renewedMs }) =>
      renewedMs !== null && renewedMs <= ms && (subject === 'membranes') === (signal === 'membranes') ? [{ key, days: (renewedMs - fromMs) / DAY_MS }] : [],
    ),
  );
  const own = over.filter(({ key }) => run.life.startsWith(`${key} `));
  return (own.length > 0 ? own : over).map(({ days }) => days);
}

function aheadScores(
  { logged }: SweptSkid,
  run: TrueRun,
  known: RecordOfSkid,
  outlook: OutlookToStore | undefined,
  ms: number,
): (Said & Pick<HandScore, 'truth' | 'method' | 'at'>)[] {
  const points = pointsSince(known, dayText(run.fromMs), 'permeability');
  const last = known.days.at(-1)?.day;
  if (points.length === 0 || last === undefined) return [];
  const simple = simpleAhead(points);
  return AHEAD_DAYS.flatMap((at) => {
    const target = dayText(ms + at * DAY_MS);
    if (run.renewedMs !== null && dayPlus(target, AROUND_DAYS) >= dayText(run.renewedMs)) return [];
    const around = logged.days.filter(({ day }) => Math.abs(daysBetween(target, day)) <= AROUND_DAYS);
    const truth = median(around.flatMap(({ permeability }) => (permeability === null ? [] : [permeability])));
    if (truth === undefined) return [];
    const ahead = daysBetween(last, target);
    const said = outlook?.kind === 'outlook' ? valueOnPath(outlook, ahead) : null;
    const methods = Object.entries(simple(ahead)).map(([method, forecast]) => ({ method, forecast, truth, at }));
    return said === null ? methods : [...methods, { ...said, method: 'ours', truth, at }];
  });
}
