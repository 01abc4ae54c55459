import { type Day, dayInWords } from '../../../shared/day.js';
import { figure } from '../../../shared/figure.js';
import type { Books } from './tank-books.js';

export type BalanceState = 'in balance' | 'more' | 'less' | 'dips do not fit' | 'too little data';

export interface BalanceSaid {
  readonly state: BalanceState;
  /** Above 0 more goes than the set points ask for; `null` where the books do not part */
  readonly driftLDay: number | null;
  readonly words: string;
}

export interface BalanceAsked {
  readonly books: Books;
  /** What the set points ask for on an average day, L */
  readonly expectedLDay: number | null;
  /** Everyone who draws from the tank */
  readonly consumers: readonly string[];
  /** The latest assay with what was reckoned for its moment */
  readonly assay: { readonly at: Date; readonly measuredGL: number; readonly reckonedGL: number } | null;
  readonly today: Day;
  readonly dayOf: (at: Date) => Day;
}

/** Fewer intervals say nothing. */
const LEAST = 3;
/** A signal holds for this many dips: a cause that lasts has given another by then. */
const HOLDS = 5;
/** A drift of less than this share of the use is nobody's errand. Common practice. */
const WORTH_A_LOOK = 0.05;
const ASSAY_OFF = 0.1;
const MS_PER_DAY = 86_400_000;

/**
 * What the books of a tank mean, in words: whether more or less goes than everyone's set points ask for, since when, how much, and what usually lies behind it. What one dip
 * cannot split between those who draw from the tank is said of the tank.
 *
 * Source: causes: common practice.
 */
export function balanceSaid(asked: BalanceAsked): BalanceSaid {
  const { books, today, dayOf } = asked;
  const { points } = books;
  const last = points.at(-1);
  const told = points.filter(({ surprise }) => surprise !== null).length;
  if (last !== undefined && !last.fits) {
    const before = points.at(-2);
    const since = before === undefined ? '' : ` since ${dayInWords(dayOf(before.at), today)}`;
    const words = `The level rose by ${figure(-(last.observedL ?? 0))} L more than was brought${since}: enter the delivery that is missing, or take the dip again.`;
    return { state: 'dips do not fit', driftLDay: null, words };
  }
  if (told < LEAST)
    return { state: 'too little data', driftLDay: null, words: `${told} of the ${LEAST} intervals between dips that a balance needs are known.` };
  const at = points.findLastIndex(({ signal }) => signal !== null);
  const drift = at === -1 || points.length - at > HOLDS ? null : driftSince(books, at);
  const share = drift === null || !asked.expectedLDay ? null : Math.abs(drift.litresPerDay) / asked.expectedLDay;
  if (drift === null || (share !== null && share < WORTH_A_LOOK)) {
    const inside = points.slice(-12).filter(({ surprise }) => surprise !== null && Math.abs(surprise) <= 1.2816).length;
    const counted = points.slice(-12).filter(({ surprise }) => surprise !== null).length;
    const words = `What went is what the set points ask for, within the error of reading. ${inside} of the last ${counted} dips lay where the books put them (8 in 10 should).`;
    return { state: 'in balance', driftLDay: null, words };
  }
  const state = drift.litresPerDay > 0 ? 'more' : 'less';
  const words = [howMuch(drift, share, asked), CAUSES[state][drift.sudden ? 'sudden' : 'lasting'], whose(asked.consumers), byAssay(asked)]
    .filter(Boolean)
    .join(' ');
  return { state, driftLDay: drift.litresPerDay, words };
}

interface Drift {
  readonly from: Date;
  readonly to: Date;
  readonly litres: number;
  readonly litresPerDay: number;
  /** All of it between two dips */
  readonly sudden: boolean;
}

function driftSince({ points, partedAt }: Books, signalAt: number): Drift | null {
  const [from, signal, last] = [points[partedAt ?? -1], points[signalAt], points.at(-1)];
  if (from === undefined || signal === undefined || last === undefined) return null;
  const sudden = signalAt - (partedAt ?? 0) === 1;
  const to = sudden ? signal : last;
  const litres = to.cumulativeL - from.cumulativeL;
  const sameWay = litres > 0 === (signal.signal === 'more');
  const days = (to.at.getTime() - from.at.getTime()) / MS_PER_DAY;
  return sameWay && days > 0 ? { from: from.at, to: to.at, litres, litresPerDay: litres / days, sudden } : null;
}

function howMuch({ from, to, litres, litresPerDay, sudden }: Drift, share: number | null, { today, dayOf }: BalanceAsked): string {
  const than = `${litres > 0 ? 'more' : 'less'} than the set points ask for`;
  const beyond = 'beyond what reading and pumps explain';
  if (sudden)
    return `Between ${dayInWords(dayOf(from), today)} and ${dayInWords(dayOf(to), today)} ${figure(Math.abs(litres))} L ${than} went at once, ${beyond}.`;
  const percent = share === null ? '' : ` (${Math.round(100 * share)} %)`;
  return `Since ${dayInWords(dayOf(from), today)} about ${figure(Math.abs(litresPerDay))} L a day${percent} ${than}, ${beyond}.`;
}

const CAUSES = {
  more: {
    sudden: 'It may be a leak, a valve left open, a clean that was not logged, or a wrong dip. Look at bund and pipes first.',
    lasting:
      'It may be a leak, a stroke set too high, product weaker than entered, or somebody who draws and is not on the list. Look at bund and pipes, then at the setting.',
  },
  less: {
    sudden: 'Water may have gone without its dose: a pump that lost its prime, an empty day tank, or a wrong dip. Measure the residual first.',
    lasting:
      'This is no saving: water may go without its dose. It may be a pump that lost its prime or wears, a stroke set too low, product stronger than entered, or a delivery that is not. Measure the residual first.',
  },
} as const;

function whose(consumers: readonly string[]): string {
  return consumers.length > 1 ? `${consumers.slice(0, -1).join(', ')} and ${consumers.at(-1)} draw from this tank: a dip cannot say which of them.` : '';
}

function byAssay({ assay, today, dayOf }: BalanceAsked): string {
  if (assay === null || Math.abs(assay.measuredGL / assay.reckonedGL - 1) < ASSAY_OFF) return '';
  const change = Math.round(100 * Math.abs(assay.reckonedGL / assay.measuredGL - 1));
  const way = assay.measuredGL < assay.reckonedGL ? 'more' : 'less';
  const found = `The assay of ${dayInWords(dayOf(assay.at), today)} found ${figure(assay.measuredGL)} g/L where ${figure(assay.reckonedGL)} were reckoned`;
  return `${found}: a pump that follows the residual gives ${change} % ${way} product for that alone.`;
}
