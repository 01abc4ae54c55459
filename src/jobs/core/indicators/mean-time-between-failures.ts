import { type Indicator, ratioOf } from './indicator.js';
import { mostEvents } from './most-events.js';

/** Share of cases in which the true value lies above the lower limit. */
const CONFIDENCE = 0.9;
/** Below this many the limit says more than the mean. Common practice. */
const FEW = 5;

/** Which time is counted: hours of filtration, or all hours in service. */
export type TimeBase = 'operating' | 'in service';

const BASES = {
  operating: {
    code: 'mtbf',
    name: 'Mean operating time between failures (MTBF)',
    formula: 'hours of filtration / failures',
    time: 'hours of filtration on record',
    nothing: 'There is no hour of filtration on record in this time.',
  },
  'in service': {
    code: 'time-between-failures',
    name: 'Mean time in service between failures',
    formula: 'hours in service / failures',
    time: 'hours in which the skids were in service, standby and down time included',
    nothing: 'No skid was in service in this time.',
  },
} as const;

/**
 * Mean time between failures with its one-sided 90 % lower limit, time / mostEvents(failures). Without a failure there is no mean: the limit alone is said. With few
 * failures the mean is given and the sentence says that the limit is the safer figure.
 *
 * Source: MTBF = operating time / failures, EN 13306 and ISO 14224 meaning. Check: 3,600 h and 12 failures give 300 h; lower limit 202.457 h (chi-squared,
 * time-terminated, computed independently).
 *
 * @example meanTimeBetweenFailures('operating', 3600, 12, 'all').value // => 300
 * @example meanTimeBetweenFailures('operating', 3600, 12, 'all').lowerLimit // => 202.456635
 */
export function meanTimeBetweenFailures(base: TimeBase, hours: number, failures: number, counted: string, remarks: readonly string[] = []): Indicator {
  const { code, name, formula, time, nothing } = BASES[base];
  const indicator = ratioOf(
    {
      code,
      name,
      unit: 'h',
      formula,
      meaning: `How long the skids ran from one failure to the next. What counts as a failure: ${counted}.`,
      source: 'EN 13306, ISO 14224',
      numerator: { value: hours, unit: 'h', meaning: time },
      denominator: { value: failures, unit: '1', meaning: `failures: ${counted}` },
    },
    nothing,
    { remarks },
  );
  if (!(hours > 0)) return { ...indicator, value: null, tooLittle: nothing };
  const lowerLimit = hours / mostEvents(failures, CONFIDENCE);
  return { ...indicator, lowerLimit, tooLittle: littleOf(failures, lowerLimit) };
}

function littleOf(failures: number, lowerLimit: number): string | null {
  const limit = `${Math.round(lowerLimit).toLocaleString('en-GB')} h`;
  if (failures === 0) return `No failure in this time, so there is no mean: with 90 % confidence it is longer than ${limit}.`;
  if (failures < FEW)
    return `${failures === 1 ? 'One failure' : `${failures} failures`} alone: with 90 % confidence the mean is longer than ${limit}; more cannot be said.`;
  return null;
}
