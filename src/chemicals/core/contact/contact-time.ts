import { type ChlorinatedWater, type RequiredCt, requiredCt } from './required-ct.js';

/** How evenly water passes a vessel: T10 over the mean time. */
export const BAFFLING = {
  'no baffles, mixed': 0,
  'no baffles': 0.1,
  'no baffles, diffusers': 0.2,
  poor: 0.3,
  average: 0.5,
  superior: 0.7,
  'near plug flow': 0.9,
  'plug flow in a pipe': 1,
} as const;
export type Baffling = keyof typeof BAFFLING;

/** A vessel or pipe between the dosing point and the first user. */
export interface Segment extends ChlorinatedWater {
  /** At the lowest level of operation */
  readonly volumeM3: number;
  /** Of the peak hour */
  readonly flowM3h: number;
  readonly baffling: Baffling;
}

export interface SegmentCt {
  readonly t10Minutes: number;
  readonly ct: number;
  readonly required: RequiredCt;
  /** Share of the CT for 3 log of Giardia; `null` where it is not tabulated */
  readonly giardiaRatio: number | null;
  readonly virusLog: number;
}

export interface ContactTime {
  readonly segments: readonly SegmentCt[];
  /** `null` where a segment is outside the table */
  readonly giardiaLog: number | null;
  readonly virusLog: number;
}

const MINUTES_PER_HOUR = 60;

/**
 * Inactivation by free chlorine after filtration: for each segment T10 = baffling x volume / flow and CT = chlorine x T10, with the lowest chlorine at its end in the
 * hour of the greatest flow; Giardia log = 3 sum(CT / CT for 3 log), virus log = 4 sum(CT / CT for 4 log). A segment outside the tables counts nothing for viruses and leaves
 * the sum for Giardia unknown.
 *
 * Source: 40 CFR 141.534 and 141.543 for Giardia; the sum for viruses in the same form (from memory); baffling: Pennsylvania DEP, page on contact time.
 *
 * @example contactTime([{ volumeM3: 2, flowM3h: 20, baffling: 'poor', chlorineMgL: 0.8, temperatureC: 17.3, ph: 7.2 }]).virusLog // => 1.44
 */
export function contactTime(segments: readonly Segment[]): ContactTime {
  const each = segments.map(ofSegment);
  const ratios = each.map(({ giardiaRatio }) => giardiaRatio);
  return {
    segments: each,
    giardiaLog: ratios.includes(null) ? null : 3 * ratios.reduce<number>((sum, ratio) => sum + (ratio ?? 0), 0),
    virusLog: each.reduce((sum, { virusLog }) => sum + virusLog, 0),
  };
}

function ofSegment(segment: Segment): SegmentCt {
  const t10Minutes = (BAFFLING[segment.baffling] * segment.volumeM3 * MINUTES_PER_HOUR) / segment.flowM3h;
  const ct = segment.chlorineMgL * t10Minutes;
  const required = requiredCt(segment);
  if (required.kind !== 'required') return { t10Minutes, ct, required, giardiaRatio: null, virusLog: 0 };
  const giardiaRatio = required.giardia3LogCt === null ? null : ct / required.giardia3LogCt;
  return { t10Minutes, ct, required, giardiaRatio, virusLog: (4 * ct) / required.virus4LogCt };
}
