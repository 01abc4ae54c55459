/** How a skid's transmembrane pressure is made up. Heights of transmitters in metres above one datum; `null` counts as 0. */
export interface TmpBasis {
  readonly scheme: 'dead-end' | 'cross-flow' | 'submerged';
  readonly tmpFrom: 'pressures' | 'measured';
  readonly feedHeightM: number | null;
  readonly filtrateHeightM: number | null;
  readonly concentrateHeightM: number | null;
}

/** Gauge pressures as the transmitters show them. */
export interface MembranePressures {
  readonly feedKpa: number | null;
  readonly filtrateKpa: number | null;
  readonly concentrateKpa: number | null;
  readonly tmpKpa: number | null;
}

export type Transmembrane =
  | { readonly kind: 'transmembrane'; readonly tmpKpa: number }
  | { readonly kind: 'missing'; readonly pressure: 'feed' | 'filtrate' | 'concentrate' | 'transmembrane' };

/** Water at 20 °C, 998.2 kg/m3, under standard gravity, 9.80665 m/s2 */
const KPA_PER_METRE = 9.789;

/**
 * Transmembrane pressure in kPa: what drives water through the membrane. It stands in intake because the start and end of a cycle are made from
 * samples here; condition takes it from here.
 *
 * Each pressure is brought to the datum by density times gravity times the height of its transmitter. Then, dead-end: feed - filtrate; cross-flow:
 * (feed + concentrate) / 2 - filtrate; submerged: head of the water above the fibres - filtrate, which is negative under suction. An open tank needs no
 * feed transmitter: without one the feed is the water surface at 0 kPa, and `feedHeightM` is the height of that surface. Where transmembrane pressure
 * is measured directly, it is taken as it is. A pressure that the scheme needs and that was not measured is named, never replaced by 0.
 *
 * Source: averaging feed and concentrate is a convention of the trade (common practice); heads by hydrostatics.
 *
 * @example transmembraneKpa({ feedKpa: 180, filtrateKpa: 90, concentrateKpa: 160, tmpKpa: null }, { scheme: 'cross-flow', tmpFrom: 'pressures', feedHeightM: null, filtrateHeightM: null, concentrateHeightM: null }) // => { "kind": "transmembrane", "tmpKpa": 80 }
 */
export function transmembraneKpa(pressures: MembranePressures, basis: TmpBasis): Transmembrane {
  if (basis.tmpFrom === 'measured') {
    return pressures.tmpKpa === null ? { kind: 'missing', pressure: 'transmembrane' } : { kind: 'transmembrane', tmpKpa: pressures.tmpKpa };
  }
  const feedKpa = pressures.feedKpa ?? (basis.scheme === 'submerged' ? 0 : null);
  if (feedKpa === null) return { kind: 'missing', pressure: 'feed' };
  if (pressures.filtrateKpa === null) return { kind: 'missing', pressure: 'filtrate' };
  const feed = atDatumKpa(feedKpa, basis.feedHeightM);
  const filtrate = atDatumKpa(pressures.filtrateKpa, basis.filtrateHeightM);
  if (basis.scheme !== 'cross-flow') return { kind: 'transmembrane', tmpKpa: feed - filtrate };
  if (pressures.concentrateKpa === null) return { kind: 'missing', pressure: 'concentrate' };
  const concentrate = atDatumKpa(pressures.concentrateKpa, basis.concentrateHeightM);
  return { kind: 'transmembrane', tmpKpa: (feed + concentrate) / 2 - filtrate };
}

function atDatumKpa(readKpa: number, heightM: number | null): number {
  return readKpa + KPA_PER_METRE * (heightM ?? 0);
}
