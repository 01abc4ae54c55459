import { type Indicator, ratioOf } from './indicator.js';

/**
 * Share of the planned tasks of a time that were done by their latest day (with the grace of their rule). Due are the tasks whose latest day lies in the time and is
 * past, or that were done; what nobody has made a job of counts as not done.
 *
 * Source: planned work done on time / planned work due. Check: 318 / 384 = 82.8125 % (published example).
 *
 * @example doneInTime(318, 384).value // => 82.8125
 */
export function doneInTime(inTime: number, due: number): Indicator {
  return ratioOf(
    {
      code: 'done-in-time',
      name: 'Planned work done in time',
      unit: '%',
      formula: '100 × tasks done by their latest day / tasks due',
      meaning: 'How much of the planned work was done by its latest day. Common practice aims at 90 % and more.',
      source: 'EN 15341, in its meaning',
      numerator: { value: inTime, unit: '1', meaning: 'planned tasks done by their latest day' },
      denominator: { value: due, unit: '1', meaning: 'planned tasks whose latest day lies in this time' },
    },
    'No planned task had its latest day in this time.',
    { scale: 100 },
  );
}
