interface Span {
  readonly fittedAt: Date;
  readonly removedAt: Date | null;
}

/**
 * Whether a position was taken, or a part was somewhere, at a moment or after it: then nothing can be fitted there, or the part
 * cannot be fitted, from that moment on.
 *
 * @example isTakenFrom(new Date('2026-03-01T00:00:00Z'), [{ fittedAt: new Date('2026-01-01T00:00:00Z'), removedAt: new Date('2026-03-01T00:00:00Z') }]) // => false
 */
export function isTakenFrom(moment: Date, spans: readonly Span[]): boolean {
  return spans.some(({ removedAt }) => removedAt === null || removedAt > moment);
}
