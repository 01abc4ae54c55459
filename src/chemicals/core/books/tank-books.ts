import { useVariance } from '../balance.js';
import { watchSums } from './watch-sums.js';

/** A dip with what the books say of the time since the one before it. */
export interface BookedDip {
  readonly at: Date;
  readonly volumeL: number;
  /** Standard error of the dip */
  readonly errorL: number;
  /** Deliveries since the dip before, less what was passed on to other tanks */
  readonly broughtL: number;
  /** What the set points of everyone who draws ask for since the dip before; `null` where nobody knows */
  readonly expectedL: number | null;
}

export interface BookPoint {
  readonly at: Date;
  readonly volumeL: number;
  /** Opening + brought - closing; `null` for the first of a run */
  readonly observedL: number | null;
  readonly expectedL: number | null;
  /** Observed less expected since the run began */
  readonly cumulativeL: number;
  /** Two standard errors of that, by dips and set points alone */
  readonly limitL: number;
  /** How far the dip lay from where the books put it, in standard errors; independent from dip to dip */
  readonly surprise: number | null;
  /** Cumulative sums of the surprises, and their moving average with its limit */
  readonly high: number;
  readonly low: number;
  readonly average: number;
  readonly averageLimit: number;
  readonly signal: 'more' | 'less' | null;
  /** The level rose by more than was brought: a delivery is missing or a dip is wrong, and the books begin anew */
  readonly fits: boolean;
}

export interface Books {
  readonly points: readonly BookPoint[];
  /** Of the last signal: the dip after which the books began to part, as an index of `points` */
  readonly partedAt: number | null;
}

/** Half a standard deviation, and five: a lasting shift of one is found in about ten dips, and without any the sums cry wolf once in 465 (from memory). */
const LASTING = { target: 0, k: 0.5, h: 5 };
/** Sudden losses: about 500 dips between false alarms (Lucas and Saccucci 1990). */
const SUDDEN = { target: 0, sd: 1, lambda: 0.5, width: 3.071 };
/** What a delivery may be off by, where its volume stands on a note. Common practice. */
const DELIVERY_ERROR_SHARE = 0.02;
const BEYOND = 2;

/**
 * The books of a tank: what went by the dips against what should have gone, kept as one running balance, with limits that allow for the error of reading.
 *
 * Neighbouring intervals share a dip: an error in it raises one and lowers the other, so that charts of the intervals would cry wolf at the wrong rate. The running balance is
 * therefore followed as a level seen with error (local level, one-step forecasts): variance before dip i is P + use + (0.02 brought)^2, the surprise is (balance - level) /
 * sqrt(variance + dip error^2), and the level moves by its share of it. While use is as set, the surprises are independent with variance 1, and cumulative sums
 * (k 0.5, h 5) and a moving average (0.5, 3.071) of them have their published rates of false alarm. After a signal both begin again, so that a mended tank falls silent.
 *
 * Source: local level model, Durbin and Koopman, Time Series Analysis by State Space Methods (from memory); charts as in `cusum` and `ewma`; error budget as in `useVariance`.
 */
export function tankBooks(dips: readonly BookedDip[]): Books {
  const raw: Raw[] = [];
  let run: Run | null = null;
  for (const [at, dip] of dips.entries()) {
    const before = dips[at - 1];
    const observedL = before === undefined ? null : before.volumeL + dip.broughtL - dip.volumeL;
    const rose = observedL !== null && observedL < -BEYOND * Math.hypot(dip.errorL, before?.errorL ?? 0, DELIVERY_ERROR_SHARE * dip.broughtL);
    if (run === null || observedL === null || dip.expectedL === null || rose) {
      run = begun(dip);
      raw.push({ dip, observedL: rose ? observedL : null, run, surprise: null, fits: !rose });
      continue;
    }
    const step = useVariance(dip.expectedL) + (DELIVERY_ERROR_SHARE * dip.broughtL) ** 2;
    const balanceL: number = run.balanceL + observedL - dip.expectedL;
    const variance = run.variance + step + dip.errorL ** 2;
    const gain: number = (run.variance + step) / variance;
    const innovation: number = balanceL - run.levelL;
    run = {
      balanceL,
      levelL: run.levelL + gain * innovation,
      variance: (1 - gain) * (run.variance + step),
      openVariance: run.openVariance + step,
      firstErrorL: run.firstErrorL,
    };
    raw.push({ dip, observedL, run, surprise: innovation / Math.sqrt(variance), fits: true });
  }
  return judged(raw);
}

interface Run {
  /** Observed less expected, as measured */
  readonly balanceL: number;
  /** The same, with the error of reading smoothed away */
  readonly levelL: number;
  readonly variance: number;
  /** Of use and deliveries since the run began, whatever was measured */
  readonly openVariance: number;
  readonly firstErrorL: number;
}

interface Raw {
  readonly dip: BookedDip;
  readonly observedL: number | null;
  readonly run: Run;
  readonly surprise: number | null;
  readonly fits: boolean;
}

const begun = ({ errorL }: BookedDip): Run => ({ balanceL: 0, levelL: 0, variance: errorL ** 2, openVariance: 0, firstErrorL: errorL });

function judged(raw: readonly Raw[]): Books {
  const watched = watchSums(
    raw.map(({ surprise }) => surprise),
    LASTING,
    SUDDEN,
  );
  const points = raw.map(({ dip: { at, volumeL, errorL, expectedL }, observedL, run, surprise, fits }, index): BookPoint => {
    const { high = 0, low = 0, average = 0, averageLimit = 0, signal = null } = watched.points[index] ?? {};
    const limitL = BEYOND * Math.sqrt(run.openVariance + run.firstErrorL ** 2 + errorL ** 2);
    return { at, volumeL, observedL, expectedL, cumulativeL: run.balanceL, limitL, surprise, high, low, average, averageLimit, signal, fits };
  });
  return { points, partedAt: watched.partedAt };
}
