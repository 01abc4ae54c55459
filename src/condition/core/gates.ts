/** What a cycle has to meet before it says anything about a membrane. Ranges are inclusive. */
export interface Gates {
  /** Half of the usual length of a cycle; a reading by hand is one moment and has no length */
  readonly leastMinutes: number;
  /** Below this share of the rated flow a run is a start, a stop or a throttled plant */
  readonly leastFlowShare: number;
  /** Foulants compact, so that permeability depends on flux: values are compared only near the set point. `null`: at any flux */
  readonly fluxBandShare: number | null;
  readonly temperatureC: readonly [low: number, high: number];
  readonly tmpKpa: readonly [low: number, high: number];
  /** Outside of it a unit or the area is wrong. Where the permeability when new is known, 1.1 times that is a closer upper end */
  readonly permeabilityLmhBar: readonly [low: number, high: number];
}

/** Common practice; 7.5 minutes are half of the shortest usual cycle, 15 minutes. */
export const DEFAULT_GATES: Gates = {
  leastMinutes: 7.5,
  leastFlowShare: 0.8,
  fluxBandShare: 0.15,
  temperatureC: [1, 40],
  tmpKpa: [2, 300],
  permeabilityLmhBar: [20, 1000],
};
