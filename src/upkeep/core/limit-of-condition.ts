import { type Day, dayInWords, dayPlus } from '../../shared/day.js';
import { CONDITION_FIGURES, type ConditionFigure } from '../../shared/upkeep-terms.js';
import { type FigureDay, type FigureLimit, firstMet } from './condition-limit.js';
import type { DatedLimit } from './due-date.js';
import { PLANNING_DAYS } from './planning.js';

/**
 * The limit of a rule on a figure of the daily condition, with its day: due since the first day that met it after the last time; to be done within the grace of the rule, or two weeks
 * where it names none. Not met: no day.
 *
 * Source: own definition; two weeks as in `PLANNING_DAYS`.
 *
 * @example limitOfCondition('cartridge dP', { above: 90, below: null }, [{ day: '2025-05-03', value: 97.2 }], { after: '2025-01-01', today: '2025-05-10', graceDays: null }) // => { "from": "condition", "limit": "cartridge dP", "dueOn": "2025-05-03", "earliestOn": "2025-05-03", "latestOn": "2025-05-17", "inWords": "cartridge pressure drop lay above 90 kPa first on 3 May (97.2)" }
 */
export function limitOfCondition(
  figure: ConditionFigure,
  limit: FigureLimit,
  days: readonly FigureDay[],
  { after, today, graceDays }: { readonly after: Day; readonly today: Day; readonly graceDays: number | null },
): DatedLimit {
  const { label } = CONDITION_FIGURES[figure];
  const met = firstMet(days, after, limit);
  const bounds = figureLimitInWords(figure, limit);
  const base = { from: 'condition', limit: figure } as const;
  if (met === null) return { ...base, dueOn: null, earliestOn: null, latestOn: null, inWords: `${label} has not been ${bounds} since` };
  const value = valueInWords(figure, met.value);
  const side = limit.above !== null && met.value > limit.above ? { above: limit.above, below: null } : { above: null, below: limit.below };
  return {
    ...base,
    dueOn: met.day,
    earliestOn: met.day,
    latestOn: dayPlus(met.day, graceDays ?? PLANNING_DAYS),
    inWords: `${label} lay ${figureLimitInWords(figure, side)} first on ${dayInWords(met.day, today)} (${value})`,
  };
}

/**
 * A limit on a figure as people say it.
 *
 * @example figureLimitInWords('permeability share', { above: null, below: 0.75 }) // => "below 75 %"
 * @example figureLimitInWords('TMP', { above: 80, below: 5 }) // => "above 80 kPa or below 5 kPa"
 */
export function figureLimitInWords(figure: ConditionFigure, { above, below }: FigureLimit): string {
  const { unit } = CONDITION_FIGURES[figure];
  const amount = (value: number) => (unit === 'share' ? valueInWords(figure, value) : `${valueInWords(figure, value)} ${unit}`);
  return [above === null ? [] : `above ${amount(above)}`, below === null ? [] : `below ${amount(below)}`].flat().join(' or ');
}

const ONE_PLACE = new Intl.NumberFormat('en-GB', { maximumFractionDigits: 1 });

function valueInWords(figure: ConditionFigure, value: number): string {
  return CONDITION_FIGURES[figure].unit === 'share' ? `${ONE_PLACE.format(100 * value)} %` : ONE_PLACE.format(value);
}
