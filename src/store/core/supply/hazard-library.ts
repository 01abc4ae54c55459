import type { HazardBand } from './hazard-bands.js';

interface Substance {
  readonly substance: string;
  readonly names: RegExp;
  readonly bands: readonly HazardBand[];
}

const band = (
  fromPercent: number,
  belowPercent: number | null,
  un: readonly [number: string, group: string | null] | null,
  signal: HazardBand['signalWord'],
  statements: string,
): HazardBand => ({
  fromPercent,
  belowPercent,
  unNumber: un?.[0] ?? null,
  packingGroup: un?.[1] ?? null,
  signalWord: signal,
  statements: statements === '' ? [] : statements.split(' '),
});

/**
 * What labels of common cleaning chemicals say by concentration. A starting point: the safety data sheet of the product has the last word.
 * Every hypochlorite carries EUH031, contact with acids liberates toxic gas.
 *
 * Source: International Chemical Safety Cards 0482, 0360 and 0704 (numbers and classes); hazardous chemical information system entry 4178
 * and the GisChem data sheets of sodium hypochlorite and sodium hydroxide; a German school safety table of hydrochloric acid by concentration.
 * Packing groups, the statements of weak hypochlorite and the lower limit of citric acid from memory.
 */
const LIBRARY: readonly Substance[] = [
  {
    substance: 'sodium hypochlorite',
    names: /hypochlor|\bnaocl\b|\bnaclo\b|bleach/i,
    bands: [band(0, 10, ['1791', 'III'], 'Warning', 'H290 H315 H319 H400 EUH031'), band(10, null, ['1791', 'II'], 'Danger', 'H290 H314 H318 H400 H410 EUH031')],
  },
  {
    substance: 'sodium hydroxide',
    names: /sodium hydroxide|\bnaoh\b|caustic soda|\blye\b/i,
    bands: [
      band(0.5, 2, ['1824', 'III'], 'Warning', 'H290 H315 H319'),
      band(2, 5, ['1824', 'II'], 'Danger', 'H290 H314'),
      band(5, null, ['1824', 'II'], 'Danger', 'H290 H314'),
    ],
  },
  {
    substance: 'hydrochloric acid',
    names: /hydrochloric|\bhcl\b|muriatic/i,
    bands: [
      band(0.36, 10, ['1789', 'III'], 'Warning', 'H290'),
      band(10, 25, ['1789', 'III'], 'Warning', 'H290 H315 H319 H335'),
      band(25, null, ['1789', 'II'], 'Danger', 'H290 H314 H335'),
    ],
  },
  { substance: 'citric acid', names: /citric/i, bands: [band(10, null, null, 'Warning', 'H319')] },
];

/**
 * The hazards that labels of a substance usually tell, by its name or formula; null where it is none of the common ones.
 *
 * @example usualHazards('NaOCl 12.5 %').substance // => "sodium hypochlorite"
 * @example usualHazards('Water') // => null
 */
export function usualHazards(name: string): { substance: string; bands: readonly HazardBand[] } | null {
  const known = LIBRARY.find(({ names }) => names.test(name));
  return known === undefined ? null : { substance: known.substance, bands: known.bands };
}
