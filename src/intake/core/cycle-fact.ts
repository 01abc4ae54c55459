/**
 * One filtration cycle as it was reported or segmented: the run between two hydraulic cleans.
 * Pressures are gauge at the transmitter; medians of the settled part of the run. `null` means that the plant does not measure it.
 */
export interface CycleFact {
  readonly startedAt: Date;
  readonly endedAt: Date;
  /** Time in filtration, without the clean */
  readonly filtrationMinutes: number;
  readonly filtrateM3: number | null;
  readonly flowM3h: number | null;
  readonly feedKpa: number | null;
  readonly filtrateKpa: number | null;
  readonly concentrateKpa: number | null;
  /** Transmembrane pressure where it is measured directly */
  readonly tmpKpa: number | null;
  /** Transmembrane pressure just after the clean that came before, and at the end of the run, where the source says them */
  readonly tmpStartKpa: number | null;
  readonly tmpEndKpa: number | null;
  readonly temperatureC: number | null;
  readonly cartridgeDpKpa: number | null;
  readonly feedTurbidityNtu: number | null;
  /** Bits of `QUALITY` */
  readonly quality: number;
  /** Read from gauges by a person: one moment and not a median, with a wider error */
  readonly byHand: boolean;
}
