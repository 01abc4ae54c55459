import { type Indicator, ratioOf } from './indicator.js';

/** Hours of a working week, and the share of them that is spent on jobs. Common practice. */
const WEEK_HOURS = 40;
const AT_WORK = 0.75;

/** Work that lies in jobs, in hours. */
export interface OpenWork {
  /** Can be done as it is */
  readonly readyHours: number;
  /** Waits for something */
  readonly waitingHours: number;
  /** Tasks without an expected time */
  readonly untimedTasks: number;
}

/**
 * Hours that so many technicians have for jobs in a week.
 *
 * @example weeklyCrewHours(4) // => 120
 */
export function weeklyCrewHours(technicians: number): number {
  return technicians * WEEK_HOURS * AT_WORK;
}

/**
 * Backlog in weeks, and the part of it that can be done as it is: hours of open jobs over the hours that the crew has in a week. Dues of which nobody has made a job
 * are not in it.
 *
 * Source: planned backlog = (planned + ready work) / weekly crew hours. Check: 600 h / (4 x 40 h x 0.75) = 5 weeks (computed independently).
 *
 * @example backlogs({ readyHours: 400, waitingHours: 200, untimedTasks: 0 }, 120)[0].value // => 5
 */
export function backlogs({ readyHours, waitingHours, untimedTasks }: OpenWork, crewHours: number): [Indicator, Indicator] {
  const remarks = untimedTasks === 0 ? [] : [`${untimedTasks} ${untimedTasks === 1 ? 'task' : 'tasks'} without an expected time: not in this figure.`];
  const weeks = (code: string, name: string, hours: number, meaning: string): Indicator =>
    ratioOf(
      {
        code,
        name,
        unit: 'wk',
        formula: `${meaning} / hours of the crew in a week`,
        meaning: `How many weeks the crew needs for it. ${remarkOfWait(code)}`,
        source: 'Common practice of planners; EN 13306 for the terms',
        numerator: { value: hours, unit: 'h', meaning },
        denominator: { value: crewHours, unit: 'h', meaning: 'hours of the crew in a week' },
      },
      'The crew has no hours: name its weekly hours.',
      { remarks },
    );
  return [
    weeks('backlog', 'Backlog', readyHours + waitingHours, 'hours of open jobs'),
    weeks('backlog-ready', 'Backlog ready to be done', readyHours, 'hours of open jobs that wait for nothing'),
  ];
}

const remarkOfWait = (code: string) => (code === 'backlog' ? 'Jobs that wait for something are in it.' : 'Jobs that wait for something are not in it.');
