import { median } from 'd3-array';
import type { Score } from './score.js';

/** A score, and the life that it belongs to: forecasts of one life are right or wrong together. */
export interface ScoreOfLife {
  readonly score: Score;
  readonly life: string;
}

/** How right forecasts have been, with what each figure was made from. */
export interface RecordFigures {
  readonly scored: number;
  /** Lives that the scored forecasts belong to: the figures rest on so many independent cases */
  readonly lives: number;
  readonly earlyChanges: number;
  readonly open: number;
  /** Median of |forecast - truth| in days, and as a share of the truth; null: nothing is scored, or the middle one was beyond the horizon */
  readonly medianErrorDays: number | null;
  readonly medianErrorShare: number | null;
  /** Of the scored, said later than it came: a surprise */
  readonly saidLater: number;
  /** Of the scored, inside P10 to P90; eight in ten should be */
  readonly inside: number;
  /** Within which the share of lives inside lies, by chance, in 19 of 20 such records; null: nothing is scored */
  readonly insideRange: readonly [low: number, high: number] | null;
  /** Early changes and open ones whose interval has passed: they count as outside for whoever reads the share */
  readonly saidTooEarly: number;
}

/**
 * Sums scores up. The range of the share inside is Wilson's for the number of lives, not of forecasts: forecasts of one life err alike.
 *
 * Source: Wilson 1927, J. American Statistical Association 22 (score interval, formula from memory).
 *
 * @example recordFigures([{ life: 'a', score: { kind: 'scored', truthDays: 10, errorDays: 2, inside: true } }]).medianErrorShare // => 0.2
 */
export function recordFigures(all: readonly ScoreOfLife[]): RecordFigures {
  const scored = all.flatMap(({ score, life }) => (score.kind === 'scored' ? [{ ...score, life }] : []));
  const waiting = all.flatMap(({ score }) => (score.kind === 'scored' ? [] : [score]));
  const lives = new Set(scored.map(({ life }) => life)).size;
  const inside = scored.filter((score) => score.inside).length;
  // Beyond the horizon is an error of unknown size: larger than all others.
  const errors = scored.map(({ errorDays }) => (errorDays === null ? Number.POSITIVE_INFINITY : Math.abs(errorDays)));
  const shares = scored.map(({ errorDays, truthDays }) => (errorDays === null ? Number.POSITIVE_INFINITY : Math.abs(errorDays) / Math.max(1, truthDays)));
  return {
    scored: scored.length,
    lives,
    earlyChanges: waiting.filter(({ kind }) => kind === 'early change').length,
    open: waiting.filter(({ kind }) => kind === 'open').length,
    medianErrorDays: finite(median(errors)),
    medianErrorShare: finite(median(shares)),
    saidLater: scored.filter(({ errorDays }) => errorDays === null || errorDays > 0).length,
    inside,
    insideRange: scored.length === 0 ? null : wilson(inside / scored.length, lives),
    saidTooEarly: waiting.filter(({ saidTooEarly }) => saidTooEarly).length,
  };
}

const finite = (value: number | undefined): number | null => (value === undefined || !Number.isFinite(value) ? null : value);

const Z = 1.959964;

/**
 * Between which shares a true share lies in 19 of 20 cases, when `share` of `count` were seen.
 *
 * Source: Wilson 1927 (from memory); the specs check it against published values.
 *
 * @example wilson(0.8, 10) // => [0.4901625, 0.9433178]
 */
export function wilson(share: number, count: number): readonly [number, number] {
  const square = Z ** 2 / count;
  const middle = (share + square / 2) / (1 + square);
  const half = (Math.sqrt((share * (1 - share)) / count + square / (4 * count)) * Z) / (1 + square);
  return [Math.max(0, middle - half), Math.min(1, middle + half)];
}
