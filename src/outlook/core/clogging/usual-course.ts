import { averaged, type EarlierLife } from './course.js';
import { leadingShapes } from './leading-shapes.js';

/** Cells of normalised life, each a fiftieth. */
export const CELLS = 50;
const MOST_SHAPES = 3;
const SMOOTHED_OVER = 2;

/** How the log level usually goes from new to the limit, and how lives differ in it; sums over cells from the start, so that any window is a difference. */
export interface UsualCourse {
  readonly mean: Float64Array;
  readonly shapes: readonly Float64Array[];
  readonly rest: Float64Array;
}

/** Mean log level of a life in each fiftieth of it. */
export function profileOf({ course, life }: Pick<EarlierLife, 'course' | 'life'>): number[] {
  const signal = averaged(course);
  return Array.from({ length: CELLS }, (_, cell) => signal.mean((cell * life) / CELLS, ((cell + 1) * life) / CELLS));
}

/**
 * The usual course of earlier lives over normalised life: weighted mean, up to three shapes along which lives differ from it (with their size), and the variance per cell that these
 * leave.
 *
 * Source: functional principal components, standard form, from memory.
 */
export function usualCourse(profiles: readonly (readonly number[])[], weights: readonly number[]): UsualCourse {
  const count = profiles.length;
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  const mean = Array.from({ length: CELLS }, () => 0);
  for (const [j, profile] of profiles.entries())
    for (let i = 0; i < CELLS; i++) mean[i] = (mean[i] as number) + ((weights[j] as number) * (profile[i] as number)) / total;
  const rows = profiles.map((profile, j) => {
    const scale = Math.sqrt(((weights[j] as number) * count) / (total * Math.max(1, count - 1)));
    return profile.map((value, i) => scale * (value - (mean[i] as number)));
  });
  const shapeCount = Math.max(0, Math.min(MOST_SHAPES, count - 2));
  const shapes = leadingShapes(rows, shapeCount);
  const rest = mean.map((_, i) => {
    const all = rows.reduce((sum, row) => sum + (row[i] as number) ** 2, 0);
    const explained = shapes.reduce((sum, shape) => sum + (shape[i] as number) ** 2, 0);
    return (Math.max(0, all - explained) * count) / Math.max(1, count - 1 - shapeCount);
  });
  return { mean: summed(mean), shapes: shapes.map(summed), rest: summed(smoothed(rest)) };
}

function smoothed(values: readonly number[]): number[] {
  return values.map((_, i) => {
    const near = values.slice(Math.max(0, i - SMOOTHED_OVER), i + SMOOTHED_OVER + 1);
    return near.reduce((sum, value) => sum + value, 0) / near.length;
  });
}

/** Integral over normalised life at the edges of the cells. */
function summed(values: readonly number[]): Float64Array {
  const sums = new Float64Array(values.length + 1);
  for (const [i, value] of values.entries()) sums[i + 1] = (sums[i] as number) + value / CELLS;
  return sums;
}

/** Integral from 0 to `u` of what `summed` holds. */
export function integralTo(sums: Float64Array, u: number): number {
  const place = u * CELLS;
  const cell = Math.min(CELLS - 1, Math.floor(place));
  return (sums[cell] as number) + (place - cell) * ((sums[cell + 1] as number) - (sums[cell] as number));
}
