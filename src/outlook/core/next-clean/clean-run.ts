import { median } from 'd3-array';
import type { LevelRun } from '../permeability/level-point.js';

/** The time of a unit from one recovery clean to the next, in days counted as in its points. */
export interface CleanRun extends LevelRun {
  /** Day of the clean that began it */
  readonly from: number;
  /** Day of the clean that ended it, or the last day that is known of a run that goes on */
  readonly to: number;
  readonly ended: 'clean' | 'running';
}

const START_VALUES = 14;
const END_VALUES = 7;

export const daysOf = ({ from, to }: CleanRun): number => to - from;

/** ln(level) once the clean has settled. */
export const startOf = (points: LevelRun['points']): number => Math.log(median(points.slice(0, START_VALUES), ({ value }) => value) ?? 1);

/** How far ln(level) had come down when a run was ended by a clean; `null` where too little was measured. */
export function fallOf({ points, ended }: CleanRun): number | null {
  if (ended !== 'clean' || points.length < START_VALUES + END_VALUES) return null;
  return startOf(points) - Math.log(median(points.slice(-END_VALUES), ({ value }) => value) ?? 1);
}
