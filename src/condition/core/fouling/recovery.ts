/** Volumes of one filtration cycle, m3. */
export interface CycleVolumes {
  readonly filtrateM3: number;
  /** Filtrate that goes back through the membrane */
  readonly backwashM3: number;
  /** Feed that flushes the membrane */
  readonly flushM3: number;
}

/**
 * Recovery of the system: what of the feed becomes water for use, hydraulic cleans included: (filtrate - backwash) / (filtrate + flush). `null` where nothing was fed.
 *
 * The word has a second meaning in rules for drinking water, see `runRecovery`; the two must not be compared.
 *
 * @example systemRecovery({ filtrateM3: 18, backwashM3: 0.9, flushM3: 0.3 }) // => 0.934426
 */
export function systemRecovery({ filtrateM3, backwashM3, flushM3 }: CycleVolumes): number | null {
  const fedM3 = filtrateM3 + flushM3;
  return fedM3 > 0 ? (filtrateM3 - backwashM3) / fedM3 : null;
}

/**
 * Recovery of a run, as rules for drinking water mean it: what of the feed becomes filtrate over a run that no clean interrupts: filtrate / (filtrate + bleed). 1 in dead-end filtration.
 *
 * Source: 40 CFR 141.719 uses it in this sense (from memory).
 *
 * @example runRecovery(90, 10) // => 0.9
 */
export function runRecovery(filtrateM3: number, bleedM3: number): number | null {
  const fedM3 = filtrateM3 + bleedM3;
  return fedM3 > 0 ? filtrateM3 / fedM3 : null;
}
