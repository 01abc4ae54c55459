import type { BreakdownFact } from './breakdown-fact.js';
import { type Indicator, ratioOf } from './indicator.js';

const HOUR_MS = 3_600_000;

/**
 * Mean time to restoration: from the stop until the skid gives water again, so with detection, wait, repair and return to service. Of failures whose two times are
 * known; how many are not is said.
 *
 * Source: MTTRes of ISO/TR 12489:2013. "MTTR" means this in IEC 60050 and IEC 61508, and the repair alone in ISO 14224: the name says which.
 *
 * @example meanTimeToRestoration([]).value // => null
 */
export function meanTimeToRestoration(failures: readonly BreakdownFact[]): Indicator {
  const hours = failures.flatMap(({ downFrom, restoredAt }) =>
    downFrom === null || restoredAt === null ? [] : [(restoredAt.getTime() - downFrom.getTime()) / HOUR_MS],
  );
  return ratioOf(
    {
      code: 'time-to-restoration',
      name: 'Mean time to restoration (MTTR as IEC 60050 has it)',
      unit: 'h',
      formula: 'hours from stop to restoration / failures restored',
      meaning: 'How long a failure lasts: until it is detected, the wait, the repair and the return to service together.',
      source: 'ISO/TR 12489:2013',
      numerator: { value: sum(hours), unit: 'h', meaning: 'from the stop to the restoration' },
      denominator: { value: hours.length, unit: '1', meaning: 'failures of which both times are known' },
    },
    'There is no failure of which stop and restoration are both known.',
    { remarks: leftOut(failures.length - hours.length, 'without both times') },
  );
}

/**
 * Mean repair time: the work of repair alone. Of failures whose minutes of repair are known.
 *
 * Source: MTTR of ISO 14224 = repair time / failures. Check: 720 min and 12 failures give 1 h.
 *
 * @example meanRepairTime([]).value // => null
 */
export function meanRepairTime(failures: readonly BreakdownFact[]): Indicator {
  const minutes = failures.flatMap(({ repairMinutes }) => (repairMinutes === null ? [] : [repairMinutes]));
  return ratioOf(
    {
      code: 'repair-time',
      name: 'Mean repair time (MTTR as ISO 14224 has it)',
      unit: 'h',
      formula: 'hours of repair / failures repaired',
      meaning: 'How long the repair itself takes, without detection, wait and return to service.',
      source: 'ISO 14224',
      numerator: { value: sum(minutes) / 60, unit: 'h', meaning: 'hours of repair' },
      denominator: { value: minutes.length, unit: '1', meaning: 'failures of which the time of repair is known' },
    },
    'There is no failure of which the time of repair is known.',
    { remarks: leftOut(failures.length - minutes.length, 'without a time of repair') },
  );
}

const sum = (values: readonly number[]) => values.reduce((total, value) => total + value, 0);
const leftOut = (count: number, why: string) => (count === 0 ? [] : [`${count} ${count === 1 ? 'failure' : 'failures'} ${why}: not in this figure.`]);
