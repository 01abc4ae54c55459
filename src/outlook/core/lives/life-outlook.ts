import { type Day, dayInWords, dayPlus } from '../../../shared/day.js';
import { figure } from '../../../shared/figure.js';
import { limitForecast, type MetWithin, metWithin } from '../days-to-limit.js';
import type { DailyLoad, LimitForecast } from '../outlook.js';
import { calibrated, type StretchFor } from '../record/calibration.js';
import { whenInWords } from '../when-in-words.js';
import { failsWithin, type LifeOfKind, type TooFewLives } from './life-of-kind.js';

export const LIFE_MODEL = { model: 'life: Weibull laws of the kind', modelVersion: '1' } as const;

/** What one clock says of a part in use. */
export interface AgeByClock {
  readonly clock: string;
  readonly age: number;
  /** How much is added on a day; null: too little is known of its use */
  readonly use: DailyLoad | null;
  readonly fleet: LifeOfKind | TooFewLives;
}

export interface PartInUse {
  /** Such as `feed pump` */
  readonly kind: string;
  /** The clock that wears it first, then others; days last */
  readonly clocks: readonly AgeByClock[];
  /** When a rule has it replaced; null: no rule does */
  readonly rule: { readonly clock: string; readonly interval: number } | null;
  readonly originDay: Day;
  /** What the record says of ranges; left out: they stay as the laws make them */
  readonly stretchFor?: StretchFor;
}

export type LifeOutlook =
  | ({
      readonly kind: 'outlook';
      readonly clock: string;
      readonly text: string;
      readonly dataUsed: readonly string[];
      readonly middleLife: number;
      /** By how much the record of earlier ones had the range widened */
      readonly stretch: number;
    } & LimitForecast)
  | { readonly kind: 'too-little-data'; readonly clock: string; readonly text: string; readonly dataUsed: readonly string[] };

/**
 * When a part in use will fail, from how long parts of its kind have lived in the fleet: its own life until now, that it still serves, and its use of recent weeks. The first clock is taken of which lives enough and its own use
 * are known.
 *
 * `too-little-data` where too few such parts have failed: then the interval of a rule is told, as what the rule says and not the record, and without a rule nothing.
 *
 * The range is stretched as the record of earlier ones asks for (`calibrated`).
 *
 * Source: conditional survival under Weibull laws (see `failsWithin`).
 *
 * @example lifeOutlook({ kind: 'seal', clocks: [], rule: null, originDay: '2026-11-25' }).text // => "Nothing is known of how long this seal has served; no rule has it replaced."
 */
export function lifeOutlook(part: PartInUse): LifeOutlook {
  const { kind, originDay, stretchFor } = part;
  const known = lifeByAge(part);
  if (known === null) return byTheRule(part);
  const { age, clock, fleet, use } = known;
  const { met, stretch } = calibrated(keptByDays(known.met), `${LIFE_MODEL.model} ${LIFE_MODEL.modelVersion}`, stretchFor);
  const forecast = limitForecast(met);
  const text = `This ${kind} has served ${amount(age, clock)}; ${byLivesInWords(known)}, its end ${whenInWords(forecast, originDay)}.`;
  const pace = clock === 'days' ? [] : [`Use of recent weeks: ${amount(use.mean, clock)} a day`];
  const dataUsed = [
    `Served ${amount(age, clock)}`,
    ...pace,
    `${fleet.lives} lives in the fleet, ${fleet.failures} of them failures; parts in use and those taken out early count as lives that go on`,
  ];
  return { kind: 'outlook', clock, text, dataUsed, middleLife: middleLifeOf(fleet), stretch, ...forecast };
}

/** A clock by which the end of a part can be told from lives of its kind. */
export interface KnownByAge {
  readonly clock: string;
  readonly age: number;
  readonly use: DailyLoad;
  readonly fleet: LifeOfKind;
  readonly met: MetWithin;
}

/**
 * The first clock of which lives enough and the part's own use are known; `null` where there is none.
 *
 * @example lifeByAge({ clocks: [] }) // => null
 */
export function lifeByAge({ clocks }: Pick<PartInUse, 'clocks'>): KnownByAge | null {
  for (const { clock, age, use, fleet } of clocks.filter(isAge)) {
    if (fleet.kind === 'learned' && use !== null && use.mean > 0) return { clock, age, use, fleet, met: metWithin(failsWithin(fleet, age), use) };
  }
  return null;
}

const isAge = ({ age }: AgeByClock): boolean => Number.isFinite(age) && age >= 0;

export const byLivesInWords = ({ fleet }: KnownByAge): string =>
  `going by ${fleet.lives} lives of such parts in the fleet, of which ${fleet.failures} ended in a failure`;

export function byTheRule({ kind, clocks: given, rule, originDay }: PartInUse): LifeOutlook & { readonly kind: 'too-little-data' } {
  const clocks = given.filter(isAge);
  const known = clocks.find(({ use }) => use !== null) ?? clocks[0];
  const dataUsed = clocks.map(
    ({ clock, age, fleet }) => `Served ${amount(age, clock)}; ${fleet.lives} lives by this clock in the fleet, ${fleet.failures} of them failures`,
  );
  const failures = Math.max(0, ...clocks.map(({ fleet }) => fleet.failures));
  const few =
    known === undefined
      ? `Nothing is known of how long this ${kind} has served`
      : `Too few such parts have failed in the fleet to tell (${failures}, 3 are needed); this ${kind} has served ${amount(known.age, known.clock)}`;
  if (rule === null) return { kind: 'too-little-data', clock: known?.clock ?? 'days', text: `${few}; no rule has it replaced.`, dataUsed };
  const by = clocks.find(({ clock }) => clock === rule.clock);
  const left = by === undefined || by.use === null || !(by.use.mean > 0) ? null : Math.max(0, (rule.interval - by.age) / by.use.mean);
  const when =
    left === null ? '' : `, which is ${left === 0 ? 'over' : `about ${dayInWords(dayPlus(originDay, Math.min(36_500, Math.round(left))), originDay)}`}`;
  return {
    kind: 'too-little-data',
    clock: rule.clock,
    text: `${few}. By the rule, not by record: every ${amount(rule.interval, rule.clock)}${when}.`,
    dataUsed,
  };
}

/** The same days are asked for before and after the range is calibrated, and each answer is a mean over hundreds of laws. */
export function keptByDays(met: MetWithin): MetWithin {
  const known = new Map<number, number>();
  return (days) => {
    const share = known.get(days) ?? met(days);
    known.set(days, share);
    return share;
  };
}

const amount = (value: number, clock: string) => `${figure(value)} ${clock}`;

/** Life that half of the parts outlive, in the mean of the laws. */
export function middleLifeOf({ laws }: LifeOfKind): number {
  return laws.reduce((sum, { scale, shape, weight }) => sum + weight * scale * Math.LN2 ** (1 / shape), 0);
}
