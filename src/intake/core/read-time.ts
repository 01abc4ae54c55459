import { timeParser } from './time-format.js';
import { type WallMeaning, zoneClock } from './zone-clock.js';

export type TimeRead =
  | Exclude<WallMeaning, { readonly kind: 'never' }>
  /** Why it is no time of a reading, to be put behind the text */
  | { readonly kind: 'bad-time'; readonly reason: string };

export type TimeReader = (text: string) => TimeRead;

/** No log of ultrafiltration is older; an earlier time is a fault of a clock or of the unit. Common practice. */
const EARLIEST_MS = Date.UTC(1980, 0, 1);
/** Clocks of plants run ahead by minutes, and by hours where the zone is wrong; more than a day is no reading. Common practice. */
const LARGEST_LEAD_MS = 86_400_000;

/** A reader for times of one format in one zone; undefined when the format is none. Times in the future or before 1980 are refused. */
export function timeReader(format: string, zone: string, nowMs: number): TimeReader | undefined {
  const parse = timeParser(format);
  if (parse === undefined) return undefined;
  const clock = zoneClock(zone);
  return (text) => {
    const written = parse(text);
    if (written.kind === 'bad-time') return written;
    const meaning: WallMeaning = written.kind === 'moment' ? { kind: 'once', atMs: written.atMs } : clock(written.wallMs);
    if (meaning.kind === 'never') return { kind: 'bad-time', reason: 'lies in the hour that the start of summer time leaves out' };
    const earliest = meaning.kind === 'once' ? meaning.atMs : meaning.firstMs;
    if (earliest < EARLIEST_MS) return { kind: 'bad-time', reason: 'lies before 1980' };
    if (earliest > nowMs + LARGEST_LEAD_MS) return { kind: 'bad-time', reason: 'lies in the future' };
    return meaning;
  };
}
