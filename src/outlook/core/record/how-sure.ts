/**
 * How sure a forecast is, in words, from the width of its range beside the time ahead: the range of eight in ten within a quarter of the time, within three quarters, or wider.
 * `null` days are beyond the horizon.
 *
 * Source: own division.
 *
 * @example howSure({ kind: 'outlook', p10Days: 28, p50Days: 30, p90Days: 33 }) // => "fairly sure: 5 days in the range"
 */
export function howSure({ kind, p10Days, p50Days, p90Days }: { kind: string; p10Days: number | null; p50Days: number | null; p90Days: number | null }): string {
  if (kind === 'limit-met') return 'met already';
  if (kind !== 'outlook') return 'too little data';
  if (p10Days === null) return 'not within two years, as far as can be told';
  if (p50Days === null || p90Days === null) return 'wide open: the range goes beyond two years';
  const width = Math.max(1, Math.round(p90Days - p10Days));
  const days = `${width} ${width === 1 ? 'day' : 'days'} in the range`;
  if (width <= Math.max(3, p50Days / 4)) return `fairly sure: ${days}`;
  return width <= Math.max(7, (3 * p50Days) / 4) ? `roughly: ${days}` : `unsure: ${days}`;
}
