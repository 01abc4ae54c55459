import type { FittedPart, PastOutlook } from '../../store/core/demand/types.js';
import { Draws } from './draws.js';
import { DAYS, type Life, STORMS_BY_SEASON, seasonOf, WEAR_BY_SEASON } from './fleet.js';

const WEEK = 7;
const MEMORY_DAYS = 30;
const Z_90 = 1.2816;

export interface Told {
  readonly life: Life;
  readonly week: number;
  readonly p50Days: number;
}

/**
 * The outlook of every cartridge in every week: what is left on average, season and the storms of an average year included, times an error that lasts for about a month, times
 * `late`. The stated width holds the error alone: no outlook knows which storms come.
 */
export function outlooksOf(lives: readonly Life[], error: number, late: number, seed: number): Told[][] {
  const draws = new Draws(seed);
  const keeps = Math.exp(-WEEK / MEMORY_DAYS);
  const weeks: Told[][] = Array.from({ length: Math.ceil(DAYS / WEEK) }, () => []);
  for (const life of lives) {
    let drift = draws.normal();
    for (let week = Math.ceil(life.from / WEEK); week * WEEK < life.to; week++) {
      drift = keeps * drift + Math.sqrt(1 - keeps * keeps) * draws.normal();
      const left = expectedLeft(life, week * WEEK);
      weeks[week]?.push({ life, week, p50Days: Math.max(0.5, left * Math.exp(error * drift) * late + 1.5 * draws.normal()) });
    }
  }
  return weeks;
}

/** As the rule sees it on that day. */
export function fittedPart({ life, p50Days }: Told, error: number): FittedPart {
  return {
    cause: String(life.position),
    quantity: 1,
    water: String(life.region),
    ageDays: 0,
    stated: { p50Days, p10Days: p50Days * Math.exp(-Z_90 * error), p90Days: p50Days * Math.exp(Z_90 * error), daysAhead: [], metByDay: [] },
    nextLifeDays: life.meanLifeDays,
  };
}

/** Outlooks up to a day with what had come of them by that day, not what came later. */
export function pastOutlooks(weeks: readonly Told[][], day: number): PastOutlook[] {
  return weeks.slice(0, Math.floor(day / WEEK)).flatMap((told) =>
    told.map(({ life, week, p50Days }) => ({
      week,
      water: String(life.region),
      p50Days,
      p10Days: null,
      p90Days: null,
      lastedDays: Math.min(life.to, day) - week * WEEK,
      met: life.met && life.to <= day,
    })),
  );
}

/** Days until the limit if every day from here on were an average one of its season. */
function expectedLeft({ wear, from, daily, ofStorms }: Life, today: number): number {
  let worn = wear[today - from] ?? 0;
  let days = 0.5;
  for (; worn < 1 && days < 2 * DAYS; days++) worn += daily * seasonOf(today + days, WEAR_BY_SEASON) + ofStorms * seasonOf(today + days, STORMS_BY_SEASON);
  return days;
}
