const formats = new Map<string, Intl.DateTimeFormat>();

/** The wall clock of a zone at a moment, counted as if it were UTC. */
export function wallClockMs(atMs: number, timeZone: string): number {
  const format =
    formats.get(timeZone) ??
    new Intl.DateTimeFormat('en-GB', {
      timeZone,
      hourCycle: 'h23',
      year: 'numeric',
      month: '2-digit',
      day: '2-digit',
      hour: '2-digit',
      minute: '2-digit',
      second: '2-digit',
    });
  formats.set(timeZone, format);
  const parts = Object.fromEntries(format.formatToParts(atMs).map((part) => [part.type, Number(part.value)]));
  return Date.UTC(parts.year ?? 0, (parts.month ?? 1) - 1, parts.day, parts.hour, parts.minute, parts.second);
}
