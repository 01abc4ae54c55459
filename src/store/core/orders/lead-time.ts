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

export interface SeenOfItem extends SeenLeadTime {
  readonly itemId: string;
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
  return learnt(statedDays, leadTimePrior(statedDays), own, scaled(ofSupplier, statedDays));
}

/** The lead times of items of one supplier with the same stated days, each learnt beside the others: what they have in common is reckoned once. */
export function leadTimesAlike(statedDays: number | null, seen: readonly SeenOfItem[]): (itemId: string) => LeadTime {
  const prior = leadTimePrior(statedDays);
  const alike = scaled(seen, statedDays);
  // Items that were never ordered there are thought to come alike.
  const ordered = new Set(seen.map(({ itemId }) => itemId));
  const unordered = learnt(statedDays, prior, [], alike);
  return (itemId) => {
    if (!ordered.has(itemId)) return unordered;
    const own = seen.filter((one) => one.itemId === itemId);
    const others = alike.filter((one) => one.itemId !== itemId);
    return learnt(statedDays, prior, own, others);
  };
}

function learnt(statedDays: number | null, prior: readonly number[], own: readonly SeenLeadTime[], others: readonly SeenLeadTime[]): LeadTime {
  const pmf = updated(updated(prior, others), own);
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
function scaled<Seen extends SeenLeadTime>(seen: readonly Seen[], statedDays: number | null): Seen[] {
  return seen.flatMap((one) => {
    if (statedDays === null || one.statedDays === null) return statedDays === one.statedDays ? [one] : [];
    const factor = Math.max(statedDays, 0.5) / Math.max(one.statedDays, 0.5);
    return [{ ...one, days: Math.round(one.days * factor) }];
  });
}

function updated(prior: readonly number[], seen: readonly SeenLeadTime[]): readonly number[] {
  if (seen.length === 0) return prior;
  const last = seen.reduce((longest, { days }) => Math.max(longest, days + 1), prior.length - 1);
  const came = new Float64Array(last + 1);
  const left = new Float64Array(last + 1);
  let awaited = 0;
  for (const { days, share, came: arrived } of seen) {
    const day = Math.max(0, days);
    const ended = arrived ? came : left;
    ended[day] = (ended[day] ?? 0) + share;
    awaited += share;
  }
  let later = LINES_OF_PRIOR;
  let alive = 1;
  const pmf: number[] = [];
  for (let day = 0; day <= last; day++) {
    const weight = LINES_OF_PRIOR * (prior[day] ?? 0);
    const atRisk = later + awaited;
    // Whatever is left on the last day comes on it: a distribution has an end.
    const hazard = day === last ? 1 : atRisk <= 1e-12 ? 0 : Math.min(1, (weight + (came[day] ?? 0)) / atRisk);
    const share = alive * hazard;
    alive -= share;
    awaited -= (came[day] ?? 0) + (left[day] ?? 0);
    later -= weight;
    pmf.push(share);
  }
  return pmf;
}
