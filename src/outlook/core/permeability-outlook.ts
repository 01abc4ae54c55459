import { mean } from 'd3-array';
import { localDays } from '../../condition/core/local-day.js';
import { daysBetween } from '../../shared/day.js';
import { figure } from '../../shared/figure.js';
import { limitForecast, metWithin } from './days-to-limit.js';
import { firstPassage } from './first-passage.js';
import { metSince } from './limit-met.js';
import { NINTHS } from './ninths.js';
import type { Outlook, OutlookReason, PathPoint } from './outlook.js';
import { pathDays } from './path-days.js';
import { type Drift, driftOf, type PermeabilityPoint } from './permeability-drift.js';
import { calibrated, type StretchFor } from './record/calibration.js';
import { whenInWords } from './when-in-words.js';

export interface PermeabilityInput {
  /** Medians of a day since the last recovery clean, in order; the load is the filtrate per membrane area since then */
  readonly points: readonly PermeabilityPoint[];
  readonly limitLmhBar: number;
  readonly dailyLoad: { readonly meanM3PerM2: number; readonly sdM3PerM2: number; readonly days: number };
  /** Decline of ln(permeability) per m3/m2 over whole earlier runs between recovery cleans; positive where it fell */
  readonly earlierDeclines: readonly number[];
  /** Time of the latest reading that is known */
  readonly origin: Date;
  readonly timeZone: string;
  /** What the record says of ranges; left out: they stay as the model makes them */
  readonly stretchFor?: StretchFor;
}

const MODEL = { model: 'permeability: level and half the drift', modelVersion: '1' } as const;
const Z_80 = 1.2815515655446004;

/**
 * Outlook of the membranes of a skid: when their permeability will meet the limit at which a recovery clean is due.
 *
 * Level and drift come from `driftOf`; ln(permeability) then moves as a random walk with that drift per load, and the limit is met at the first passage
 * (`firstPassage`), averaged over nine equally likely drifts. A drift upwards counts as none: water that runs through does not clean a membrane, so an
 * apparent rise is noise or season. Where no decline can be told from the scatter the answer still is an outlook, since a level that holds is knowledge;
 * its reason says so and its share beyond two years is high unless the level is near the limit.
 *
 * `limit-met` where the last readings are at or below the limit; `too-little-data` before 10 daily values over 14 days, or where no water runs. A first version: the
 * spread has a floor from common practice and is not yet calibrated on past forecasts.
 *
 * Source: own composition; compared with simple forecasts in test/open-data/outlook-open-data.spec.ts.
 *
 * @example permeabilityOutlook({ points: [], limitLmhBar: 130, dailyLoad: { meanM3PerM2: 1.2, sdM3PerM2: 0.1, days: 28 }, earlierDeclines: [], origin: new Date('2025-11-25T06:00:00Z'), timeZone: 'UTC' }).kind // => "too-little-data"
 */
export function permeabilityOutlook(input: PermeabilityInput): Outlook {
  const { points, limitLmhBar, dailyLoad } = input;
  const originDay = localDays(input.timeZone)(input.origin.getTime()).day;
  const drift = dailyLoad.meanM3PerM2 > 0 && dailyLoad.days >= 1 ? driftOf(points, input.earlierDeclines) : null;
  const seen = seenInWords(points, drift);
  const rest = {
    ...MODEL,
    originDay,
    dataUsed: {
      firstDay: points[0]?.day ?? null,
      lastDay: points.at(-1)?.day ?? null,
      points: points.length,
      earlierLives: input.earlierDeclines.length,
      dailyLoad: dailyLoad.meanM3PerM2,
      dailyLoadDays: dailyLoad.days,
      loadUnit: 'm3/m2',
    },
  } as const;
  const because = (text: string, basis: OutlookReason['basis']): OutlookReason => ({
    text,
    basis,
    firstValue: points[0]?.permeability ?? null,
    lastValue: drift?.level ?? points.at(-1)?.permeability ?? null,
    limit: limitLmhBar,
  });
  const limit = `the limit of ${figure(limitLmhBar)} L/m2 h bar`;

  const metOn = metSince(
    points.map(({ day, permeability }) => ({ day, value: permeability })),
    (value) => value <= limitLmhBar,
  );
  if (metOn !== null) return { ...rest, kind: 'limit-met', metOn, reason: because(`${seen}; ${limit} has been reached.`, 'signal') };
  if (drift === null) {
    const need = dailyLoad.meanM3PerM2 > 0 && dailyLoad.days >= 1 ? '10 daily values over at least 14 of the last 60 days' : 'days on which water runs';
    return {
      ...rest,
      kind: 'too-little-data',
      have: seen,
      need,
      reason: because(`${seen}; too early to say when ${limit} is reached: it takes ${need}.`, 'none'),
    };
  }

  const walks = walksOf(drift, limitLmhBar);
  const metByLoad = (load: number) => mean(walks, (walk) => firstPassage(load, walk)) ?? 0;
  const metByModel = metWithin(metByLoad, { mean: dailyLoad.meanM3PerM2, sd: dailyLoad.sdM3PerM2, days: dailyLoad.days });
  const { met, stretch } = calibrated(metByModel, `${MODEL.model} ${MODEL.modelVersion}`, input.stretchFor);
  const forecast = limitForecast(met);
  const runs = input.earlierDeclines.length === 0 ? '' : ' and going by earlier runs between cleans';
  const text = `${seen}; at the load of recent weeks${runs} ${limit} ${whenInWords(forecast, originDay)}.`;
  const basis = input.earlierDeclines.length === 0 ? 'signal' : 'signal and earlier lives';
  return { ...rest, kind: 'outlook', ...forecast, stretch, path: pathOf(drift, pathDays(forecast), dailyLoad.meanM3PerM2), reason: because(text, basis) };
}

/** Nine equally likely walks from the level to the limit, none of them rising. */
function walksOf({ level, decline, declineSd, spread }: Drift, limit: number) {
  const distance = Math.log(level / limit);
  return NINTHS.map((z) => ({ distance, drift: Math.max(0, decline + z * declineSd), spread }));
}

/** The course of the permeability itself: between low and high lie 8 in 10 of its values on a day, which is narrower than the span of first passages. */
function pathOf({ level, decline, declineSd, spread }: Drift, days: readonly number[], dailyMean: number): PathPoint[] {
  return days.map((dayAhead) => {
    const load = dailyMean * dayAhead;
    const mid = level * Math.exp(-decline * load);
    const reach = Math.exp(Z_80 * Math.hypot(declineSd * load, spread * Math.sqrt(load)));
    return { dayAhead, low: mid / reach, mid, high: Math.min(mid * reach, Math.max(mid, level * Math.exp(Z_80 * spread * Math.sqrt(load)))) };
  });
}

function seenInWords(points: readonly PermeabilityPoint[], drift: Drift | null): string {
  const [first, last] = [points[0], points.at(-1)];
  if (first === undefined || last === undefined) return 'Permeability has not been read since the last recovery clean';
  const days = daysBetween(first.day, last.day);
  if (drift === null) return `Permeability has been read on ${points.length} ${points.length === 1 ? 'day' : 'days'} since the last recovery clean`;
  if (!drift.clear) return `Permeability is ${figure(drift.level)} L/m2 h bar and shows no clear decline over the last ${Math.min(days, 60)} days`;
  return `Permeability has come from ${figure(first.permeability)} to ${figure(drift.level)} L/m2 h bar over ${days} days since the last recovery clean`;
}
