import { localDays } from '../../../condition/core/local-day.js';
import { type Day, dayInWords, dayPlus, daysBetween } from '../../../shared/day.js';
import { figure } from '../../../shared/figure.js';
import { limitForecast } from '../days-to-limit.js';
import { metSince } from '../limit-met.js';
import type { Outlook, OutlookReason, PathPoint } from '../outlook.js';
import { pathDays } from '../path-days.js';
import { calibrated, type StretchFor } from '../record/calibration.js';
import { theilSen } from '../theil-sen.js';
import { whenInWords } from '../when-in-words.js';
import { changesAhead } from './level-ahead.js';
import { type LevelLaw, learnLevels } from './level-law.js';
import type { LevelRun } from './level-point.js';
import { EPOCH } from './level-runs.js';
import { signsAt } from './level-signs.js';
import { levelMetWithin, type WalkAhead, walkAhead } from './level-to-limit.js';
import type { PastChange } from './past-changes.js';

export interface MembraneInput {
  /** Medians of a day since the last recovery clean, or since something else made the level another one; the clock is the filtrate per membrane area since then (`levelRuns`) */
  readonly run: LevelRun;
  readonly limitLmhBar: number;
  readonly dailyLoad: { readonly meanM3PerM2: number; readonly days: number };
  /** What the skid's own earlier weeks came to, in this run and those before */
  readonly own: readonly PastChange[];
  /** What the fleet taught of how levels go on, with the number of runs it learned from; `null`: the skid's own earlier weeks are all there is */
  readonly fleet: { readonly law: LevelLaw; readonly runs: number } | null;
  /** Time of the latest reading that is known */
  readonly origin: Date;
  readonly timeZone: string;
  /** What the record says of ranges; left out: they stay as the model makes them */
  readonly stretchFor?: StretchFor;
}

const MODEL = { model: 'permeability: level and learned drift', modelVersion: '1' } as const;
const Z_80 = 1.2815515655446004;
const RECENT_DAYS = 60;

/**
 * Outlook of the membranes of a skid: when their permeability will meet the limit at which a recovery clean is due.
 *
 * Level, drift, latest value and last fortnight of the run (`signsAt`) carry as far as they did in the past, in the fleet's runs and the skid's own (`learnLevels`, `changesAhead`); with nothing to learn from half of the
 * recent drift is believed. ln(permeability) then moves as a random walk whose scatter past misses gave, and the limit is met at its first passage (`levelMetWithin`). Days ahead go by the load of recent weeks. A
 * drift upwards counts as none. Where no decline can be told from the scatter the answer still is an outlook, since a level that holds is knowledge; its reason says so.
 *
 * `limit-met` where the last readings are at or below the limit; `too-little-data` before 10 daily values over 14 days of the run, or 4 over three weeks, or where no water runs.
 *
 * Source: own composition; figures by `npm run evaluate -- membrane`, held against saying that nothing changes in test/open-data/permeability-open-data.spec.ts.
 *
 * @example membraneOutlook({ run: { unit: 'a', points: [] }, limitLmhBar: 130, dailyLoad: { meanM3PerM2: 1.2, days: 28 }, own: [], fleet: null, origin: new Date('2025-11-25T06:00:00Z'), timeZone: 'UTC' }).kind // => "too-little-data"
 */
export function membraneOutlook(input: MembraneInput): Outlook {
  const { limitLmhBar, dailyLoad, run, fleet, own } = input;
  const points = run.points.map(({ dayNo, clock, value }) => ({ day: dayPlus(EPOCH, dayNo), clock, value }));
  const originDay = localDays(input.timeZone)(input.origin.getTime()).day;
  const hasLoad = dailyLoad.meanM3PerM2 > 0 && dailyLoad.days >= 1;
  const signs = hasLoad ? signsAt(run.points, run.points.length - 1, run.usualDrift) : null;
  const runs = fleet === null ? new Set(own.map(({ runFrom }) => runFrom)).size : fleet.runs;
  const seen = seenInWords(points, signs?.level ?? null);
  const rest = {
    ...MODEL,
    originDay,
    dataUsed: {
      firstDay: points[0]?.day ?? null,
      lastDay: points.at(-1)?.day ?? null,
      points: points.length,
      earlierLives: runs,
      dailyLoad: dailyLoad.meanM3PerM2,
      dailyLoadDays: dailyLoad.days,
      loadUnit: 'm3/m2',
    },
  } as const;
  const because = (text: string, basis: OutlookReason['basis']): OutlookReason => ({
    text,
    basis,
    firstValue: points[0]?.value ?? null,
    lastValue: signs?.level ?? points.at(-1)?.value ?? null,
    limit: limitLmhBar,
  });
  const limit = `the limit of ${figure(limitLmhBar)} L/m2 h bar`;

  const metOn = metSince(points, (value) => value <= limitLmhBar);
  if (metOn !== null)
    return { ...rest, kind: 'limit-met', metOn, reason: because(`${seen}; ${limit} was already met on ${dayInWords(metOn, originDay)}.`, 'signal') };
  if (signs === null || !(limitLmhBar > 0)) {
    const need = hasLoad ? '10 daily values over two weeks, or 4 over three' : 'days on which water runs';
    return {
      ...rest,
      kind: 'too-little-data',
      have: seen,
      need,
      reason: because(`${seen}; too early to say when ${limit} is reached: it takes ${need}.`, 'none'),
    };
  }

  const ahead = changesAhead(fleet?.law ?? learnLevels(own), { ...signs, pace: dailyLoad.meanM3PerM2 }, own, run.unit);
  const metByModel = levelMetWithin(ahead, { distance: Math.log(signs.level / limitLmhBar), falling: true });
  const { met, stretch } = calibrated(metByModel, `${MODEL.model} ${MODEL.modelVersion}`, input.stretchFor);
  const forecast = limitForecast(met);
  const going = runs === 0 ? '' : ' and going by earlier runs between cleans';
  const text = `${seen}; at the load of recent weeks${going} ${limit} ${whenInWords(forecast, originDay)}.`;
  const walk = walkAhead(ahead, true) ?? { drift: 0, driftSd: 0, spread: 0 };
  const reason = because(text, runs === 0 ? 'signal' : 'signal and earlier lives');
  return { ...rest, kind: 'outlook', ...forecast, stretch, path: pathOf(signs.level, walk, pathDays(forecast)), reason };
}

/** The course of the permeability itself: between low and high lie 8 in 10 of its values on a day, which is narrower than the span of first passages. */
function pathOf(level: number, { drift, driftSd, spread }: WalkAhead, days: readonly number[]): PathPoint[] {
  return days.map((dayAhead) => {
    const mid = level * Math.exp(-drift * dayAhead);
    const byChance = Z_80 * spread * Math.sqrt(dayAhead);
    const reach = Math.exp(Math.hypot(Z_80 * driftSd * dayAhead, byChance));
    return { dayAhead, low: mid / reach, mid, high: Math.min(mid * reach, Math.max(mid, level * Math.exp(byChance))) };
  });
}

interface DayValue {
  readonly day: Day;
  readonly clock: number;
  readonly value: number;
}

function seenInWords(points: readonly DayValue[], level: number | null): string {
  const [first, last] = [points[0], points.at(-1)];
  if (first === undefined || last === undefined) return 'Permeability has not been read since the last recovery clean';
  const days = daysBetween(first.day, last.day);
  if (level === null) return `Permeability has been read on ${points.length} ${points.length === 1 ? 'day' : 'days'} since the last recovery clean`;
  if (!fallsClearly(points, last.day))
    return `Permeability is ${figure(level)} L/m2 h bar and shows no clear decline over the last ${Math.min(days, RECENT_DAYS)} days`;
  return `Permeability has come from ${figure(first.value)} to ${figure(level)} L/m2 h bar over ${days} days since the last recovery clean`;
}

/** Whether the record itself shows a decline that its scatter could not make: the 80 % limits of the slope leave out zero. */
function fallsClearly(points: readonly DayValue[], lastDay: Day): boolean {
  const recent = points.filter(({ day, value }) => daysBetween(day, lastDay) < RECENT_DAYS && value > 0);
  const line = theilSen(
    recent.map(({ clock, value }) => [clock, Math.log(value)] as const),
    Z_80,
  );
  return line !== null && line.high < 0;
}
