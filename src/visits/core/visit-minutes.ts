/** Taken for a task of which no usual time is known. */
export const MINUTES_ASSUMED = 60;

export interface TaskTime {
  /** With its crew; null: not known */
  readonly minutes: number | null;
  readonly crew: number;
}

/**
 * How long a visit takes: the work of its tasks (usual minutes times crew) shared by the people who go, but no less than its longest task. Tasks
 * that need more people than go take so much longer. A task without a usual time counts as an hour of one person, by common practice of planning;
 * the answer is in whole minutes, and 0 where there is no task.
 *
 * @example visitMinutes([{ minutes: 45, crew: 1 }, { minutes: 30, crew: 1 }], 1) // => 75
 * @example visitMinutes([{ minutes: 45, crew: 1 }, { minutes: 30, crew: 1 }], 2) // => 45
 * @example visitMinutes([{ minutes: 120, crew: 2 }, { minutes: null, crew: 1 }], 2) // => 150
 */
export function visitMinutes(tasks: readonly TaskTime[], people: number): number {
  const known = tasks.map(({ minutes, crew }) => ({ minutes: minutes ?? MINUTES_ASSUMED, crew: minutes === null ? 1 : crew }));
  const work = known.reduce((sum, { minutes, crew }) => sum + minutes * crew, 0);
  const longest = Math.max(0, ...known.map(({ minutes }) => minutes));
  return Math.ceil(Math.max(longest, work / Math.max(1, people)));
}
