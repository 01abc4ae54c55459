import { leadTimePrior } from './lead-time-prior.js';

/** What came of one order line, or of a part of it. */
export interface SeenLeadTime {
  /** From the day of the order to the day of receipt; of what has not come, to today or the day on which it was given up */
  readonly days: number;
  /** Of the line: the parts of one line are 1 together */
  readonly share: number;
  /** It has come; else it takes longer than `days` */
  readonly came: boolean;
  /** What was stated for it */
  readonly statedDays: number | null;
}

export interface LeadTime {
  /** Probability of each number of days from 0 on; sums to 1 */
  readonly pmf: readonly number[];
  readonly p10: number;
  readonly p50: number;
  readonly p90: number;
  readonly meanDays: number;
  readonly statedDays: number | null;
  /** Order lines that came, parts counted as parts */
  readonly came: number;
  /** Order lines that are still awaited */
  readonly awaited: number;
}

/** How many lines of the item itself outweigh what is thought beforehand; and how many of the supplier's other items. */
const LINES_OF_PRIOR = 3;

/**
 * The lead time of an item from a supplier as a distribution over days: what is stated, corrected by how late the supplier's other items
 * came by what was stated for them, corrected by the lines of the item itself. Each step is the mean of a beta-Stacy process: on each day the
 * probability of coming, of what has not come before,
 *   h(d) = (m prior(d) + came on d) / (m prior(d or later) + still awaited on d),   m = 3 lines,
 * so that lines that are still open count for as long as they were awaited. Without any line it is what is thought beforehand.
 *
 * Source: Walker and Muliere, Beta-Stacy processes and a generalization of the Polya-urn scheme, Annals of Statistics 25 (1997), from memory.
 */
export function leadTimeOf(statedDays: number | null, own: readonly SeenLeadTime[], ofSupplier: readonly SeenLeadTime[] = []): LeadTime {
  const beforehand = updated(
    leadTimePrior(statedDays),
    ofSupplier.flatMap((seen) => scaled(seen, statedDays)),
  );
  const pmf = updated(beforehand, own);
  return {
    pmf,
    p10: quantileDays(pmf, 0.1),
    p50: quantileDays(pmf, 0.5),
    p90: quantileDays(pmf, 0.9),
    meanDays: pmf.reduce((sum, share, day) => sum + share * day, 0),
    statedDays,
    came: sumOfShares(own, true),
    awaited: sumOfShares(own, false),
  };
}

/**
 * The first day by which it has come with at least this probability.
 *
 * @example quantileDays([0, 0.5, 0.3, 0.2], 0.8) // => 2
 */
export function quantileDays(pmf: readonly number[], probability: number): number {
  let sum = 0;
  const day = pmf.findIndex((share) => {
    sum += share;
    return sum >= probability - 1e-9;
  });
  return day === -1 ? Math.max(0, pmf.length - 1) : day;
}

const sumOfShares = (seen: readonly SeenLeadTime[], came: boolean) =>
  Math.round(seen.reduce((sum, one) => sum + (one.came === came ? one.share : 0), 0) * 1e6) / 1e6;

/** A supplier that takes half as long again for one item is thought to do so for another. */
function scaled(seen: SeenLeadTime, statedDays: number | null): SeenLeadTime[] {
  if (statedDays === null || seen.statedDays === null) return statedDays === seen.statedDays ? [seen] : [];
  const factor = Math.max(statedDays, 0.5) / Math.max(seen.statedDays, 0.5);
  return [{ ...seen, days: Math.round(seen.days * factor) }];
}

function updated(prior: readonly number[], seen: readonly SeenLeadTime[]): number[] {
  if (seen.length === 0) return [...prior];
  const last = Math.max(prior.length - 1, ...seen.map(({ days }) => days + 1));
  const came = new Float64Array(last + 1);
  const left = new Float64Array(last + 1);
  for (const { days, share, came: arrived } of seen) {
    const day = Math.max(0, days);
    (arrived ? came : left)[day] = ((arrived ? came : left)[day] ?? 0) + share;
  }
  let awaited = seen.reduce((sum, { share }) => sum + share, 0);
  let later = LINES_OF_PRIOR;
  let alive = 1;
  return Array.from({ length: last + 1 }, (_, day) => {
    const weight = LINES_OF_PRIOR * (prior[day] ?? 0);
    const atRisk = later + awaited;
    // Whatever is left on the last day comes on it: a distribution has an end.
    const hazard = day === last ? 1 : atRisk <= 1e-12 ? 0 : Math.min(1, (weight + (came[day] ?? 0)) / atRisk);
    const share = alive * hazard;
    alive -= share;
    awaited -= (came[day] ?? 0) + (left[day] ?? 0);
    later -= weight;
    return share;
  });
}
