import { type Indicator, ratioOf } from './indicator.js';

export interface AvailableTime {
  readonly requiredHours: number;
  /** Within the required time, each hour once */
  readonly downHours: number;
  /** Breakdowns without water whose down time is not known */
  readonly unknownStops: number;
}

/**
 * Share of the time asked for in which the skids were able to give water. Standby counts as able; laid up and out of service are not asked for. No down time is taken
 * as caused from outside, and down time for planned work counts only where it was reported as a breakdown.
 *
 * Source: time-based availability in the meaning of EN 15341:2019, M10: (operating + standby + externally caused down time) / required time. Check: 300 h of operation
 * and 1 h of down time give 300 / 301 = 99.66777 % (computed independently).
 *
 * @example availability({ requiredHours: 301, downHours: 1, unknownStops: 0 }).value // => 99.66777408637874
 */
export function availability({ requiredHours, downHours, unknownStops }: AvailableTime): Indicator {
  const remarks = unknownStops === 0 ? [] : [`${unknownStops} without water whose down time is not known: not in this figure.`];
  return ratioOf(
    {
      code: 'availability',
      name: 'Availability',
      unit: '%',
      formula: '100 × (hours in service − hours down) / hours in service',
      meaning: 'How much of the time in service the skids were able to give water. Standby counts as able; laid up and out of service are left out.',
      source: 'EN 15341:2019, M10, in its meaning',
      numerator: { value: requiredHours - downHours, unit: 'h', meaning: 'hours in service without the hours down' },
      denominator: { value: requiredHours, unit: 'h', meaning: 'hours in service' },
    },
    'No skid was in service in this time.',
    { scale: 100, remarks },
  );
}
