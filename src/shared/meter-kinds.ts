/** What a counter of a machine counts. */
export const METER_KINDS = ['run hours', 'starts', 'strokes'] as const;
export type MeterKind = (typeof METER_KINDS)[number];
