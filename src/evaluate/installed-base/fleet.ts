import { Draws } from './draws.js';

export const DAYS = 5 * 365;
export const SCORED_FROM = 2 * 365;
export const ITEMS = 8;
const SKIDS = 40;
const REGIONS = 3;
/** Of the three cartridge positions: days a cartridge lasts, and the wear that a storm adds. */
const LIVES = [90, 150, 260];
const STORM_WEAR = [0.2, 0.12, 0.06];
const ALSO_CHANGED_FROM = 0.92;
/** How far wear and storms of the worst season lie above the mean. */
export const WEAR_BY_SEASON = 0.25;
export const STORMS_BY_SEASON = 0.8;
const KIT = 6;
const FAILURE = 7;

export interface Visit {
  readonly day: number;
  /** Item numbers, one piece each */
  readonly items: readonly number[];
}

/** A cartridge from the day it was fitted to the day it was changed. */
export interface Life {
  readonly position: number;
  readonly item: number;
  readonly region: number;
  readonly from: number;
  readonly to: number;
  /** False where it was changed along with another, before its limit */
  readonly met: boolean;
  /** Wear at the end of each day since `from` */
  readonly wear: readonly number[];
  /** Wear of an average day without storms, and what storms add to it on average */
  readonly daily: number;
  readonly ofStorms: number;
  readonly meanLifeDays: number;
}

export interface PlannedKit {
  readonly planned: number;
  readonly done: number;
}

export interface Fleet {
  readonly visits: readonly Visit[];
  readonly lives: readonly Life[];
  readonly kits: readonly PlannedKit[];
}

/**
 * A fleet whose parts wear from day to day: faster in one season, faster at some sites, and by leaps when a storm muddies the water of a region or of all.
 * A visit is due when a position meets its limit and takes along those close to theirs; yearly kits have a day that may slip; some things fail without a sign.
 * All numbers are assumptions.
 */
export function fleetOf(seed: number, stormsAYear: number): Fleet {
  const draws = new Draws(seed);
  const storms = stormsOf(draws, stormsAYear);
  const visits: Visit[] = [];
  const lives: Life[] = [];
  const kits: PlannedKit[] = [];
  for (let skid = 0; skid < SKIDS; skid++) {
    const region = skid % REGIONS;
    const model = Math.floor(skid / REGIONS) % 2;
    const stormADay = (STORM_WEAR.map((wear) => wear * Math.exp(0.18)) as number[]).map((wear) => (wear * stormsAYear * (0.4 + 0.6 / REGIONS)) / 365);
    const site = draws.logNormal(1, 0.35);
    const units = LIVES.map((life, at) => Math.max(0.2 / life, 1 / (life * site) - (stormADay[at] ?? 0)));
    const fitted = LIVES.map(() => ({ from: 0, daily: 0, wear: [] as number[] }));
    const renew = (at: number, from: number, worn = 0) => {
      fitted[at] = { from, daily: (units[at] ?? 0) / draws.logNormal(1, 0.2), wear: [worn] };
    };
    for (const at of LIVES.keys()) renew(at, 0, draws.next());
    for (let day = 1; day < DAYS; day++) {
      const season = seasonOf(day, WEAR_BY_SEASON);
      for (const [at, part] of fitted.entries()) {
        const leap = (storms[region]?.[day] ?? 0) * (STORM_WEAR[at] ?? 0);
        part.wear.push((part.wear.at(-1) ?? 0) + part.daily * season + leap);
      }
      if (!fitted.some(({ wear }) => (wear.at(-1) ?? 0) >= 1)) continue;
      const items: number[] = [];
      for (const [at, part] of fitted.entries()) {
        const worn = part.wear.at(-1) ?? 0;
        if (worn < ALSO_CHANGED_FROM) continue;
        const item = model * LIVES.length + at;
        items.push(item);
        lives.push({
          position: skid * LIVES.length + at,
          item,
          region,
          from: part.from,
          to: day,
          met: worn >= 1,
          wear: part.wear,
          daily: part.daily,
          ofStorms: stormADay[at] ?? 0,
          meanLifeDays: (LIVES[at] ?? 0) * site,
        });
        renew(at, day);
      }
      visits.push({ day, items });
    }
    for (const [at, part] of fitted.entries()) {
      lives.push({
        position: skid * LIVES.length + at,
        item: model * LIVES.length + at,
        region,
        from: part.from,
        to: DAYS,
        met: false,
        wear: part.wear,
        daily: part.daily,
        ofStorms: stormADay[at] ?? 0,
        meanLifeDays: (LIVES[at] ?? 0) * site,
      });
    }
    const first = draws.below(365);
    for (let planned = first; planned < DAYS; planned += 365) {
      const done = planned + (draws.next() < 0.2 ? 1 + draws.below(14) : 0);
      kits.push({ planned, done });
      if (done < DAYS) visits.push({ day: done, items: [KIT] });
    }
    for (let day = 0; day < DAYS; day++) if (draws.next() < 0.25 / 365) visits.push({ day, items: [FAILURE] });
  }
  return { visits: visits.sort((a, b) => a.day - b.day), lives, kits };
}

/** Severity of the storm of a day in each region, 0 where there is none: more of them in winter, four in ten over all regions. */
function stormsOf(draws: Draws, aYear: number): Float64Array[] {
  const storms = Array.from({ length: REGIONS }, () => new Float64Array(DAYS));
  for (let day = 0; day < DAYS; day++) {
    if (draws.next() >= (aYear / 365) * seasonOf(day, STORMS_BY_SEASON)) continue;
    const severity = draws.logNormal(1, 0.6);
    const everywhere = draws.next() < 0.4;
    const region = draws.below(REGIONS);
    for (const [at, ofRegion] of storms.entries()) if (everywhere || at === region) ofRegion[day] = severity;
  }
  return storms;
}

/** What the season makes of a day: 1 on average, most at the turn of the year. */
export const seasonOf = (day: number, swing: number): number => 1 + swing * Math.cos((2 * Math.PI * day) / 365);
