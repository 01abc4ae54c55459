import { type Day, dayInWords, dayPlus } from '../../../shared/day.js';
import { HORIZON_DAYS } from '../horizon.js';
import type { WaitingCost, WaitingPoint } from './waiting-cost.js';

/** A month later is what a visit may be shifted by. */
const LATER_DAYS = 30;

const TERMS = [
  ['risk', 'for coming after the limit'],
  ['energy', 'for energy'],
  ['production', 'for lost production'],
] as const;

/**
 * What waiting costs as sentences: the cheapest day; what waiting beyond it costs more, until the day by which the limit is met in 9 of 10 cases (30 days later where that is no later), by term; what acting
 * at once throws away.
 *
 * @example waitingInWords({ kind: 'prices-missing', missing: ['what the renewal costs'] }, { originDay: '2026-11-25', p90Days: 20, currency: 'EUR' }) // => "What waiting costs cannot be told without what the renewal costs."
 */
export function waitingInWords(cost: WaitingCost, about: { readonly originDay: Day; readonly p90Days: number | null; readonly currency: string }): string {
  if (cost.kind === 'prices-missing') return `What waiting costs cannot be told without ${cost.missing.join(' and ')}.`;
  const { points, cheapestDay } = cost;
  const money = (amount: number) => `${amount < 10 ? amount.toFixed(2) : Math.round(amount)} ${about.currency}`;
  const on = (days: number) => dayInWords(dayPlus(about.originDay, days), about.originDay);
  const cheapest =
    cheapestDay === 0
      ? 'Acting now is the cheapest'
      : cheapestDay >= HORIZON_DAYS
        ? 'Acting is the cheaper the later it is, for two years'
        : `Acting on ${on(cheapestDay)} is the cheapest`;
  const late90 = about.p90Days === null ? 0 : Math.ceil(about.p90Days);
  const until = Math.min(HORIZON_DAYS, late90 > cheapestDay ? late90 : cheapestDay + LATER_DAYS);
  const [now, best, late] = [points[0], points[cheapestDay], points[until]];
  const sentences = [cheapest];
  if (now !== undefined && cheapestDay > 0) sentences.push(`acting now costs ${money(now.extra)} more, in life thrown away`);
  if (best !== undefined && late !== undefined && until > cheapestDay)
    sentences.push(`waiting until ${on(until)} costs ${money(late.extra)} more${termsOf(best, late, money)}`);
  const left = cost.notCounted.length === 0 ? '' : ` Not counted, since no price is known: ${cost.notCounted.join(', ')}.`;
  return `${sentences.join('; ')}.${left}`;
}

function termsOf(best: WaitingPoint, late: WaitingPoint, money: (amount: number) => string): string {
  const terms = TERMS.flatMap(([term, why]) => (late[term] - best[term] >= 0.005 ? [`${money(late[term] - best[term])} ${why}`] : []));
  const gained = best.lifeThrownAway - late.lifeThrownAway;
  return terms.length === 0 ? '' : ` (${terms.join(', ')}${gained >= 0.005 ? `, less ${money(gained)} of life that is used` : ''})`;
}
