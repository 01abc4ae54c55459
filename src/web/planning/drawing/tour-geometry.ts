import type { Schemas } from '../../api/client.js';

export type Tour = Schemas['PlanTourView'];
export type Stop = Schemas['PlanStopView'];

/** What is done at one site in one go. Times are minutes of the day. */
export interface Stay {
  /** By which its stops belong together */
  readonly group: string;
  readonly siteId: string;
  readonly siteName: string;
  readonly stops: readonly Stop[];
  readonly arrive: number;
  readonly start: number;
  readonly end: number;
}

/** A part of a tour; what is neither on the way nor work nor the break is left blank. */
export interface Piece {
  readonly kind: 'way' | 'work' | 'break';
  readonly from: number;
  readonly until: number;
}

/** From minutes of the day to pixels. */
export interface TimeScale {
  readonly from: number;
  readonly until: number;
  readonly left: number;
  readonly right: number;
}

const HOUR = 60;
/** What can be hit with a finger or a pointer */
const LEAST_WIDTH = 24;
/** Ticks of the time axis stand at least so far apart */
const TICK_PX = 44;

/** Minutes of the day of a clock time; a tour that ends after midnight goes on counting: "24:30". */
export function minutesOf(time: string): number {
  const [hours = 0, minutes = 0] = time.split(':').map(Number);
  return hours * HOUR + minutes;
}

export const clockOf = (minutes: number): string =>
  `${String(Math.floor(minutes / HOUR)).padStart(2, '0')}:${String(Math.round(minutes % HOUR)).padStart(2, '0')}`;

const bySite = ({ siteId }: Stop): string => siteId;

/** The stops of a tour, those together that follow each other in one group: of one site, unless told otherwise. */
export function staysOf({ stops }: Tour, groupOf: (stop: Stop) => string = bySite): Stay[] {
  const stays: Stay[] = [];
  for (const stop of stops) {
    const last = stays.at(-1);
    const end = minutesOf(stop.endAt);
    const group = groupOf(stop);
    if (last?.group === group) stays[stays.length - 1] = { ...last, stops: [...last.stops, stop], end };
    else
      stays.push({ group, siteId: stop.siteId, siteName: stop.siteName, stops: [stop], arrive: minutesOf(stop.arriveAt), start: minutesOf(stop.startAt), end });
  }
  return stays;
}

/** Ways and work of a tour in their order, and its break, which interrupts them. */
export function piecesOf(tour: Tour): Piece[] {
  const pieces: Piece[] = [];
  let at = minutesOf(tour.leaveAt);
  for (const { arriveAt, startAt, endAt } of tour.stops) {
    const [arrive, start, end] = [minutesOf(arriveAt), minutesOf(startAt), minutesOf(endAt)];
    pieces.push({ kind: 'way', from: at, until: arrive }, { kind: 'work', from: start, until: end });
    at = end;
  }
  pieces.push({ kind: 'way', from: at, until: minutesOf(tour.backAt) });
  const all = tour.breakAt === null ? pieces : withBreak(pieces, minutesOf(tour.breakAt.from), minutesOf(tour.breakAt.until));
  return all.filter(({ from, until }) => until > from);
}

const withBreak = (pieces: readonly Piece[], from: number, until: number): Piece[] => [
  ...pieces.flatMap((piece) => [
    { ...piece, until: Math.min(piece.until, from) },
    { ...piece, from: Math.max(piece.from, until) },
  ]),
  { kind: 'break', from, until },
];

/** One scale for all days, in whole hours, so that the same hour stands below the same hour. */
export function scaleOf(tours: readonly Tour[], left: number, right: number): TimeScale {
  const from = Math.min(...tours.map(({ leaveAt }) => minutesOf(leaveAt)));
  const until = Math.max(...tours.map(({ backAt }) => minutesOf(backAt)));
  if (!Number.isFinite(from)) return { from: 0, until: 24 * HOUR, left, right };
  return { from: Math.floor(from / HOUR) * HOUR, until: Math.ceil((until + 1) / HOUR) * HOUR, left, right };
}

export const xOf = ({ from, until, left, right }: TimeScale, minutes: number): number => left + ((minutes - from) / (until - from)) * (right - left);

/** Hours to be written along the time, as many as there is room for. */
export function hoursOf(scale: TimeScale): { readonly minutes: number; readonly x: number }[] {
  const most = Math.max(1, Math.floor((scale.right - scale.left) / TICK_PX));
  const hours = (scale.until - scale.from) / HOUR;
  const step = [1, 2, 3, 4, 6, 12, 24].find((each) => hours / each <= most) ?? 24;
  const ticks = Array.from({ length: Math.floor(hours / step) + 1 }, (_, at) => scale.from + at * step * HOUR);
  return ticks.map((minutes) => ({ minutes, x: xOf(scale, minutes) }));
}

/** Where the button of each stay lies: over its work, but wide enough to be hit, and never over the one before. */
export function boxesOf(stays: readonly Stay[], scale: TimeScale): { readonly x: number; readonly width: number }[] {
  let taken = scale.left;
  return stays.map(({ start }, at) => {
    const next = stays[at + 1];
    const x = Math.max(taken, xOf(scale, start));
    const until = next === undefined ? scale.right : xOf(scale, next.start);
    taken = Math.max(x + LEAST_WIDTH, until);
    return { x, width: Math.max(LEAST_WIDTH, until - x) };
  });
}
