import type { Sign } from './sign.js';

/** No filtrate for as long as this is a breakdown; shorter pauses are cleans and standby. Common practice. */
const NO_FLOW_HOURS = 24;
/** Readings that are older than this do not tell of today. */
const ARRIVE_WITHIN_HOURS = 24;
const HOUR_MS = 3_600_000;

/** What the record tells of the flow of filtrate. */
export interface FlowRecord {
  /** When filtrate last flowed */
  readonly lastFlowAt: Date | null;
  /** The first and the last reading since then, which show none */
  readonly firstWithoutAt: Date | null;
  readonly lastReadingAt: Date | null;
  /** When the product tank was last read full since; `null`: not since then, or nobody measures its level */
  readonly lastFullAt: Date | null;
}

/**
 * Readings still arrive and show no filtrate for 24 hours, of a skid that filtered before. As long as the product tank is full the skid is not asked for any: the hours count
 * from when the tank was last full. Over as soon as filtrate flows again. `null`, so no word, where the skid never filtered, or where the readings have stopped (silence of a
 * logger is no fault of the skid).
 *
 * Source: common practice.
 *
 * @example noFlowSign({ lastFlowAt: null, firstWithoutAt: null, lastReadingAt: null, lastFullAt: null }, new Date('2025-11-03T08:00:00Z')) // => null
 */
export function noFlowSign({ lastFlowAt, firstWithoutAt, lastReadingAt, lastFullAt }: FlowRecord, now: Date): Sign | null {
  const sign = 'no flow';
  if (lastFlowAt === null) return null;
  if (firstWithoutAt === null || lastReadingAt === null) return { kind: 'over', sign, since: lastFlowAt };
  const downFrom = lastFullAt !== null && lastFullAt > firstWithoutAt ? lastFullAt : firstWithoutAt;
  const hours = (lastReadingAt.getTime() - downFrom.getTime()) / HOUR_MS;
  if (hours < NO_FLOW_HOURS) return { kind: 'over', sign, since: lastFlowAt };
  if (now.getTime() - lastReadingAt.getTime() > ARRIVE_WITHIN_HOURS * HOUR_MS) return null;
  const tank =
    lastFullAt === null
      ? 'Ask at the site whether the skid stands with a full product tank; if so, end this.'
      : `The product tank was last full at ${inWords(lastFullAt)} and has fallen since.`;
  return {
    kind: 'shown',
    sign,
    severity: 'no water',
    title: 'No filtrate',
    request: `Readings arrive, and show no filtrate for ${Math.floor(hours)} hours, the last flow at ${inWords(lastFlowAt)}. ${tank}`,
    noticedAt: now,
    downFrom,
  };
}

const inWords = (at: Date): string => `${at.toISOString().slice(0, 16).replace('T', ' ')} UTC`;
