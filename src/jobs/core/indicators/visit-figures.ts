import type { JobKind } from '../../../shared/work.js';
import { type Indicator, ratioOf } from './indicator.js';

const OWN = 'our own definition; common practice';

/**
 * Share of the jobs that their first sheet finished, with nothing left undone. A first sheet that says "to be continued", or a task that was not done, means another way.
 *
 * Source: definition of our own; common practice calls it the first-time fix rate.
 *
 * @example firstVisitCompletion(18, 24).value // => 75
 */
export function firstVisitCompletion(atFirst: number, finished: number): Indicator {
  return ratioOf(
    {
      code: 'first-visit-completion',
      name: 'Finished at the first visit',
      unit: '%',
      formula: '100 × jobs finished by their first sheet / jobs finished by a sheet',
      meaning: 'How much of the work needed no second way: the first sheet ended the job, and every task of it was done.',
      source: OWN,
      numerator: { value: atFirst, unit: '1', meaning: 'jobs finished by their first sheet, with every task done' },
      denominator: { value: finished, unit: '1', meaning: 'jobs finished by a sheet in this time' },
    },
    'No job was finished by a sheet in this time.',
    { scale: 100 },
  );
}

/** Time of the visits whose sheets say how long the way took. */
export interface TravelTime {
  readonly travelHours: number;
  readonly workHours: number;
  /** Visits whose sheets do not say it */
  readonly untold: number;
}

/**
 * Share of travel in the time of visits: the way there over the way there and the work.
 *
 * Source: definition of our own; common practice.
 *
 * @example travelShare({ travelHours: 2, workHours: 6, untold: 0 }).value // => 25
 */
export function travelShare({ travelHours, workHours, untold }: TravelTime): Indicator {
  const remarks = untold === 0 ? [] : [`${untold === 1 ? '1 visit is' : `${untold} visits are`} left out: no sheet says how long the way took.`];
  return ratioOf(
    {
      code: 'travel-share',
      name: 'Share of travel',
      unit: '%',
      formula: '100 × hours on the way / (hours on the way + hours worked)',
      meaning: 'How much of the time of visits goes into the way there. The way back is not in it.',
      source: OWN,
      numerator: { value: travelHours, unit: 'h', meaning: 'hours on the way to visits, as sheets note them' },
      denominator: { value: travelHours + workHours, unit: 'h', meaning: 'hours on the way and hours worked, at the same visits' },
    },
    'No sheet of a visit in this time says how long the way took.',
    { scale: 100, remarks },
  );
}

/**
 * Share of the promises that were kept: work began on the day that the client was promised first.
 *
 * Source: definition of our own; common practice.
 *
 * @example promisesKept(9, 12).value // => 75
 */
export function promisesKept(kept: number, promised: number): Indicator {
  return ratioOf(
    {
      code: 'promises-kept',
      name: 'Promises kept',
      unit: '%',
      formula: '100 × visits begun on the day first promised / visits promised',
      meaning:
        'How often somebody came on the day that the client was promised first. What was shifted or called off after the promise counts as not kept, whoever asked for it.',
      source: OWN,
      numerator: { value: kept, unit: '1', meaning: 'visits whose work began on the day first promised' },
      denominator: { value: promised, unit: '1', meaning: 'visits whose day first promised lies in this time and is past' },
    },
    'No day that was promised lies in this time and is past.',
    { scale: 100 },
  );
}

/** Finished work of one kind, as far as its time was planned. */
export interface PlannedTime {
  readonly kind: JobKind;
  readonly jobs: number;
  readonly plannedHours: number;
  readonly actualHours: number;
  /** Jobs of which some usual time was not known */
  readonly unplanned: number;
}

/**
 * Time taken over time planned, for each kind of work that was finished: 100 % is as planned, more is longer.
 *
 * Source: definition of our own; common practice.
 *
 * @example timeAsPlanned([{ kind: 'service', jobs: 4, plannedHours: 8, actualHours: 10, unplanned: 0 }])[0].value // => 125
 */
export function timeAsPlanned(done: readonly PlannedTime[]): Indicator[] {
  return done.map(({ kind, jobs, plannedHours, actualHours, unplanned }) =>
    ratioOf(
      {
        code: `time-as-planned-${kind}`,
        name: `Time taken against time planned: ${kind}`,
        unit: '%',
        formula: '100 × hours by the sheets / usual hours of the tasks',
        meaning: `How long ${jobs === 1 ? '1 job' : `${jobs} jobs`} took beside what the task sheets say, of all who were there. Over 100 %: longer than planned.`,
        source: OWN,
        numerator: { value: actualHours, unit: 'h', meaning: 'hours by the sheets of these jobs' },
        denominator: { value: plannedHours, unit: 'h', meaning: 'usual hours of their tasks, times the people that they need' },
      },
      'Of no job of this kind every usual time was known.',
      {
        scale: 100,
        remarks: unplanned === 0 ? [] : [`${unplanned === 1 ? '1 job is' : `${unplanned} jobs are`} left out: the usual time of a task is not known.`],
      },
    ),
  );
}
