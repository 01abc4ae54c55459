/** Repairs of one module. */
export interface FibreRecord {
  readonly fibres: number;
  /** Of all fibres that were there; null where their number is not known */
  readonly share: number | null;
  readonly mark: 'look at the module' | 'replace the module' | null;
}

/** Shares from which a module is looked at and replaced. Common practice. */
const LOOK_FROM = 0.005;
export const REPLACE_FROM = 0.01;

/**
 * What the closed fibres of a module, or of a set of modules that is fitted together, add up to. `fibresThere`: how many there were when new.
 *
 * Source: a module is reviewed from 0.5 to 1 % of its fibres, common practice.
 *
 * @example fibreRecord(25, 9000) // => { "fibres": 25, "share": 0.002777777777777778, "mark": null }
 */
export function fibreRecord(fibres: number, fibresThere: number | null): FibreRecord {
  if (fibresThere === null || fibresThere <= 0) return { fibres, share: null, mark: null };
  const share = fibres / fibresThere;
  return { fibres, share, mark: share >= REPLACE_FROM ? 'replace the module' : share >= LOOK_FROM ? 'look at the module' : null };
}

/**
 * Broken fibres for each million fibres and year.
 *
 * Source: 1 to 10 is usual, from a survey of breakage as quoted; more asks for its cause.
 *
 * @example breaksPerMillionYear(3, 90000, 365.25) // => 33.333333333333336
 */
export function breaksPerMillionYear(breaks: number, fibres: number, days: number): number | null {
  return fibres > 0 && days > 0 ? (breaks / fibres) * 1e6 * (365.25 / days) : null;
}
