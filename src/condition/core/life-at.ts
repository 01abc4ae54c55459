/** What a counter had counted at a moment, since its first reading. */
export interface LifePoint {
  readonly at: Date;
  readonly life: number;
}

/**
 * The life of a machine at a moment: between two readings the count is taken to have risen evenly; before the first it is that of the first, after the last that
 * of the last, since nothing is known there. 0 where there is no reading. Points in order of time.
 *
 * Source: linear interpolation (common practice).
 *
 * @example lifeAt([{ at: new Date('2025-01-01T00:00:00Z'), life: 0 }, { at: new Date('2025-01-11T00:00:00Z'), life: 200 }], new Date('2025-01-06T00:00:00Z')) // => 100
 */
export function lifeAt(points: readonly LifePoint[], at: Date): number {
  const ms = at.getTime();
  const index = points.findIndex((point) => point.at.getTime() >= ms);
  if (index === -1) return points.at(-1)?.life ?? 0;
  const after = points[index];
  const before = points[index - 1];
  if (after === undefined || before === undefined) return points[0]?.life ?? 0;
  const share = (ms - before.at.getTime()) / (after.at.getTime() - before.at.getTime());
  return before.life + (after.life - before.life) * share;
}
