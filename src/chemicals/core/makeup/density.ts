/** Chemicals of cleans whose density is tabulated: [weight %, kg/L at 20 degC]. */
const DENSITIES = {
  'sodium hydroxide': [
    [0, 0.9982],
    [1, 1.0095],
    [5, 1.0538],
    [10, 1.1089],
    [20, 1.2192],
    [30, 1.3277],
    [40, 1.4299],
    [50, 1.525],
  ],
  'citric acid': [
    [0, 0.9982],
    [1, 1.0022],
    [5, 1.0189],
    [10, 1.0402],
    [20, 1.0858],
    [30, 1.1346],
    [50, 1.24],
  ],
} as const;
export type TabulatedChemical = keyof typeof DENSITIES;

/**
 * Density of a solution from its strength by weight, kg/L at 20 degC: between two rows on a straight line, `null` beyond the table. No extrapolation: beyond it the delivery
 * note says.
 *
 * Source: engineering density tables; the rows of 50 % from memory.
 *
 * @example densityKgL('sodium hydroxide', 15) // => 1.16405
 * @example densityKgL('citric acid', 60) // => null
 */
export function densityKgL(chemical: TabulatedChemical, weightPercent: number): number | null {
  const rows = DENSITIES[chemical];
  const above = rows.findIndex(([percent]) => percent >= weightPercent);
  const [high, low] = [rows[above], rows[Math.max(0, above - 1)]];
  if (high === undefined || low === undefined || weightPercent < 0) return null;
  if (high[0] === low[0]) return high[1];
  return low[1] + ((high[1] - low[1]) * (weightPercent - low[0])) / (high[0] - low[0]);
}
