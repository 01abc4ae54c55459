import { median } from 'd3-array';
import { localDays } from '../../condition/core/local-day.js';
import { type Day, dayInWords, daysBetween } from '../../shared/day.js';
import { figure } from '../../shared/figure.js';
import { askWithOwn, type SaidByLives } from './clogging/ask-with-own.js';
import type { Course, EarlierLife } from './clogging/course.js';
import type { Fleet } from './clogging/fleet.js';
import { metByLeft } from './clogging/met-by-left.js';
import { growthOf } from './clogging-growth.js';
import { cloggingPath } from './clogging-path.js';
import { limitForecast, metWithin } from './days-to-limit.js';
import { lifeLaw } from './life-law.js';
import { metByFurtherLoad } from './life-posterior.js';
import { metSince } from './limit-met.js';
import type { Outlook, OutlookReason } from './outlook.js';
import { pathDays } from './path-days.js';
import { calibrated, type StretchFor } from './record/calibration.js';
import { whenInWords } from './when-in-words.js';

export interface CartridgeInput {
  /** Medians of a day since the set was fitted, in order; the load is the filtrate since then, weighted by turbidity where that is known */
  readonly points: readonly { readonly day: Day; readonly loadM3: number; readonly dpKpa: number }[];
  readonly limitKpa: number;
  /** Earlier sets, those of the same position first, then the latest first */
  readonly earlierLives: readonly { readonly loadM3: number; readonly ended: 'limit' | 'censored' }[];
  readonly dailyLoad: { readonly meanM3: number; readonly sdM3: number; readonly days: number };
  /** Load at the origin, where water ran on after the last point */
  readonly loadNowM3?: number;
  /** Time of the latest reading that is known */
  readonly origin: Date;
  readonly timeZone: string;
  /** What sets of the same item taught elsewhere, with the lives at the set's own place; left out: those of `earlierLives` alone are known */
  readonly fleet?: FleetOfSet;
  /** What the record says of ranges; left out: they stay as the model makes them */
  readonly stretchFor?: StretchFor;
}

/** Loads are m3 for each cartridge. */
export interface FleetOfSet {
  readonly fleet: Fleet;
  readonly own: readonly EarlierLife[];
  readonly positionId: string;
  readonly itemId: string;
  readonly place: number;
  readonly cartridges: number;
  readonly course: Course;
}

const FEW_LIVES = { model: 'cartridge: earlier lives and growth', modelVersion: '2' } as const;
const LEARNED = { model: 'cartridge: learned fleet', modelVersion: '1' } as const;

/**
 * Outlook of a set of cartridges: when its pressure drop will meet the limit, as a distribution. Tells the service manager when to have new ones there.
 *
 * With three or more lives that ended at their limit, at this place or of the same item elsewhere, the answer is that of the learned fleet (`askFleet`): the usual course stretched over the load, and what was left of
 * earlier lives at the level reached, weighed by how right each was in the past. With fewer, what earlier sets ran through gives the law of the life in m3 (`lifePrior`, `lifeLaw`), and the growth of the set's own
 * pressure drop is multiplied into it (`growthOf`, `metByFurtherLoad`), which counts the more the nearer the limit is. The remaining load is turned into days by the daily load and its uncertainty (`metWithin`). A straight line is not used: clogging is convex, and a line is late by several times.
 *
 * `limit-met` where the last readings are at the limit; `too-little-data` where no water runs, or where nothing is known of earlier sets and the
 * set shows no rise. The ranges of a learned fleet come from its past forecasts, those of few lives from the model.
 *
 * Source: own composition; evaluated against straight lines in test/open-data/outlook-open-data.spec.ts.
 *
 * @example cartridgeOutlook({ points: [], limitKpa: 150, earlierLives: [], dailyLoad: { meanM3: 240, sdM3: 30, days: 28 }, origin: new Date('2025-11-25T06:00:00Z'), timeZone: 'UTC' }).kind // => "too-little-data"
 */
export function cartridgeOutlook(input: CartridgeInput): Outlook {
  const { points, limitKpa, dailyLoad } = input;
  const originDay = localDays(input.timeZone)(input.origin.getTime()).day;
  const said = saidByLives(input);
  const law = said?.prior ?? lifeLaw(input.earlierLives.map(({ loadM3, ended }) => ({ load: loadM3, ended })));
  const growth = growthOf(
    points.map(({ loadM3, dpKpa }) => ({ load: loadM3, value: dpKpa })),
    limitKpa,
  );
  const recent = median(points.slice(-3), ({ dpKpa }) => dpKpa) ?? null;
  // A set just fitted has run nothing yet; a thousandth of a life keeps the logarithms finite.
  const load = Math.max(input.loadNowM3 ?? 0, points.at(-1)?.loadM3 ?? 0, law === null ? 0 : Math.exp(law.lnCentre) / 1000);
  const seen = seenInWords(input, growth);
  const rest = {
    ...((said?.left ?? null) === null ? FEW_LIVES : LEARNED),
    originDay,
    dataUsed: {
      firstDay: points[0]?.day ?? null,
      lastDay: points.at(-1)?.day ?? null,
      points: points.length,
      earlierLives: livesOf(input, said),
      dailyLoad: dailyLoad.meanM3,
      dailyLoadDays: dailyLoad.days,
      loadUnit: 'm3',
    },
  } as const;
  const because = (text: string, basis: OutlookReason['basis']): OutlookReason => ({
    text,
    basis,
    firstValue: growth?.clean ?? points[0]?.dpKpa ?? null,
    lastValue: growth?.now ?? recent,
    limit: limitKpa,
  });
  const limit = `the limit of ${figure(limitKpa)} kPa`;

  const metOn = metSince(
    points.map(({ day, dpKpa }) => ({ day, value: dpKpa })),
    (value) => value >= limitKpa,
  );
  if (metOn !== null)
    return { ...rest, kind: 'limit-met', metOn, reason: because(`${seen}; ${limit} was already met on ${dayInWords(metOn, originDay)}.`, 'signal') };
  const missing = whatIsMissing(input, law !== null || growth !== null || (said?.left ?? null) !== null);
  if (missing !== null)
    return {
      ...rest,
      kind: 'too-little-data',
      have: seen,
      need: missing,
      reason: because(`${seen}; too early to say when ${limit} is reached: it takes ${missing}.`, 'none'),
    };

  const left = said?.left ?? null;
  const metByModel = metWithin(left === null ? metByFurtherLoad(load, law, growth) : metByLeft(left), {
    mean: dailyLoad.meanM3,
    sd: dailyLoad.sdM3,
    days: dailyLoad.days,
  });
  const { met, stretch } = calibrated(metByModel, `${rest.model} ${rest.modelVersion}`, input.stretchFor);
  const forecast = limitForecast(met);
  const now = growth?.now ?? recent ?? 0;
  const lives = livesOf(input, said);
  const sets = lives === 1 ? 'one earlier set' : `${lives} earlier sets${lives > input.earlierLives.length ? ', those of other skids among them,' : ''}`;
  const text = `${seen}; at ${figure(dailyLoad.meanM3)} m3 a day${law === null ? '' : ` and going by ${sets}`} ${limit} ${whenInWords(forecast, originDay)}.`;
  const basis = growth === null && left === null ? 'earlier lives' : law === null ? 'signal' : 'signal and earlier lives';
  const path = cloggingPath(pathDays(forecast), met, dailyLoad.meanM3, { load, clean: growth?.clean ?? now, now, limit: limitKpa });
  return { ...rest, kind: 'outlook', ...forecast, path, stretch, reason: because(text, basis) };
}

function seenInWords({ points }: CartridgeInput, growth: { readonly clean: number; readonly now: number } | null): string {
  const [first, last] = [points[0], points.at(-1)];
  if (first === undefined || last === undefined) return 'Cartridge pressure drop has not been read since the set was fitted';
  const run = `${daysBetween(first.day, last.day)} days and ${figure(last.loadM3)} m3`;
  if (growth === null) return `Cartridge pressure drop shows no clear rise over ${run}`;
  return `Cartridge pressure drop has risen from ${figure(growth.clean)} to ${figure(growth.now)} kPa over ${run}`;
}

function whatIsMissing({ dailyLoad }: CartridgeInput, something: boolean): string | null {
  if (!(dailyLoad.meanM3 > 0) || dailyLoad.days < 1) return 'days on which water runs';
  return something ? null : 'a clear rise, or the life of an earlier set';
}

/** What the fleet says, in m3 of the whole set; null: nobody asked one. */
function saidByLives({ points, loadNowM3 = 0, fleet: of }: CartridgeInput): SaidByLives | null {
  if (of === undefined) return null;
  const { fleet, own, positionId, itemId, place, cartridges, course } = of;
  const now = Math.max(loadNowM3, points.at(-1)?.loadM3 ?? 0) / cartridges;
  const said = askWithOwn(fleet, own, { condition: positionId, group: itemId, lnStrength: null, order: place }, course, now);
  const { prior, left } = said;
  return {
    ...said,
    prior: prior === null ? null : { ...prior, lnCentre: prior.lnCentre + Math.log(cartridges) },
    left: left === null ? null : { p10: left.p10 * cartridges, p50: left.p50 * cartridges, p90: left.p90 * cartridges },
  };
}

const livesOf = ({ earlierLives }: CartridgeInput, said: SaidByLives | null): number => Math.max(earlierLives.length, said?.lives ?? 0);
