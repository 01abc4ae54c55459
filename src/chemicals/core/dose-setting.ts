import { neatLitresPerHour } from './dose.js';
import { strengthAfterGL } from './hypochlorite-strength.js';

/** A dose to set on a pump. */
export interface DoseToSet {
  readonly doseMgL: number;
  readonly flowM3h: number;
  /** When it came */
  readonly strengthGL: number;
  /** Of hypochlorite: days since, and where it stood; `null` for a product that keeps */
  readonly aged: { readonly days: number; readonly storageC: number } | null;
  /** What the pump gives at full stroke and speed, L/h */
  readonly pumpLh: number | null;
}

export interface DoseSetting {
  readonly strengthGL: number;
  readonly litresPerHour: number;
  readonly mlPerMinute: number;
  /** Of a whole day at that flow */
  readonly litresPerDay: number;
  /** `null` without a pump; above 100 the pump is too small */
  readonly strokePercent: number | null;
}

/**
 * What a dosing pump must give: dose x flow / strength of today, and the stroke that this is of what it can. `null` for a product without strength.
 *
 * Source: mass balance, as `neatLitresPerHour`; the stroke: Water Treatment Mathematics, chemical feed settings.
 *
 * @example doseSetting({ doseMgL: 2, flowM3h: 20, strengthGL: 125, aged: null, pumpLh: 1 }).litresPerHour // => 0.32
 */
export function doseSetting({ doseMgL, flowM3h, strengthGL: fresh, aged, pumpLh }: DoseToSet): DoseSetting | null {
  const strengthGL = aged === null ? fresh : strengthAfterGL(fresh, aged.days, aged.storageC);
  const litresPerHour = neatLitresPerHour(doseMgL, flowM3h, strengthGL);
  if (litresPerHour === null) return null;
  const strokePercent = pumpLh === null || pumpLh <= 0 ? null : (100 * litresPerHour) / pumpLh;
  return { strengthGL, litresPerHour, mlPerMinute: (litresPerHour * 1000) / 60, litresPerDay: 24 * litresPerHour, strokePercent };
}
