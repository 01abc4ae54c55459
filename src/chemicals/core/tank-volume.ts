/** A row of a table of levels: what the tank holds up to there. */
export interface LevelRow {
  readonly levelM: number;
  readonly volumeL: number;
}

/** The form of a tank as it stands in the register. Where a dimension is missing the volume is read from capacity and height on a straight scale. */
export interface TankForm {
  readonly shape: 'vertical-cylinder' | 'horizontal-cylinder' | 'rectangular' | 'drum' | 'table';
  /** Of a tank of the shape `table`, rising */
  readonly levelTable?: readonly LevelRow[] | null;
  readonly diameterM: number | null;
  readonly lengthM: number | null;
  readonly widthM: number | null;
  /** Inner height at which the tank is full; of a horizontal cylinder its diameter */
  readonly heightM: number;
  readonly capacityL: number;
  /** Below the suction: cannot be used */
  readonly heelL: number;
}

const LITRES_PER_M3 = 1000;

/**
 * Volume in a tank from its level, L: turns a dip into litres.
 *
 * Vertical cylinder: pi/4 diameter^2 level. Horizontal cylinder with flat ends: length (r^2 acos((r - h)/r) - (r - h) sqrt(2 r h - h^2)). Rectangular: length
 * width level. Drum or IBC, and any tank with a dimension missing: capacity level / height. Table of levels: a straight line between its rows, from empty at the bottom
 * and the last row above it. Never below 0 nor above the capacity.
 *
 * Source: geometry.
 *
 * @example volumeAtLevelL({ shape: 'vertical-cylinder', diameterM: 1, lengthM: null, widthM: null, heightM: 1.5, capacityL: 1100, heelL: 20 }, 0.01) // => 7.8539816
 */
export function volumeAtLevelL(tank: TankForm, levelM: number): number {
  const level = Math.min(Math.max(levelM, 0), tank.heightM);
  return Math.min(tank.capacityL, LITRES_PER_M3 * (geometricM3(tank, level) ?? (tank.capacityL / LITRES_PER_M3) * (level / tank.heightM)));
}

/**
 * Usable volume from the level, L: what lies above the heel that the suction does not reach.
 *
 * @example usableAtLevelL({ shape: 'drum', diameterM: null, lengthM: null, widthM: null, heightM: 1, capacityL: 200, heelL: 15 }, 0.5) // => 85
 */
export function usableAtLevelL(tank: TankForm, levelM: number): number {
  return Math.max(0, volumeAtLevelL(tank, levelM) - tank.heelL);
}

/**
 * Level at which a tank holds a volume, m: where to fill a batch to. The inverse of `volumeAtLevelL`, found by halving to a hundredth of a millimetre.
 *
 * @example levelAtVolumeM({ shape: 'drum', diameterM: null, lengthM: null, widthM: null, heightM: 1, capacityL: 200, heelL: 15 }, 0) // => 0
 */
export function levelAtVolumeM(tank: TankForm, volumeL: number): number {
  if (volumeL <= 0) return 0;
  let [low, high] = [0, tank.heightM];
  while (high - low > 1e-5) {
    const middle = (low + high) / 2;
    if (volumeAtLevelL(tank, middle) < volumeL) low = middle;
    else high = middle;
  }
  return high;
}

function geometricM3({ shape, diameterM, lengthM, widthM, levelTable }: TankForm, level: number): number | null {
  if (shape === 'table') return levelTable == null || levelTable.length === 0 ? null : tabulatedL(levelTable, level) / LITRES_PER_M3;
  if (shape === 'vertical-cylinder') return diameterM === null ? null : (Math.PI / 4) * diameterM ** 2 * level;
  if (shape === 'rectangular') return lengthM === null || widthM === null ? null : lengthM * widthM * level;
  if (shape === 'drum' || diameterM === null || lengthM === null) return null;
  const r = diameterM / 2;
  const h = Math.min(level, diameterM);
  return lengthM * (r ** 2 * Math.acos((r - h) / r) - (r - h) * Math.sqrt(2 * r * h - h ** 2));
}

function tabulatedL(rows: readonly LevelRow[], level: number): number {
  const above = rows.findIndex(({ levelM }) => levelM >= level);
  const high = rows[above];
  if (high === undefined) return rows.at(-1)?.volumeL ?? 0;
  const low = rows[above - 1] ?? { levelM: 0, volumeL: 0 };
  if (high.levelM === low.levelM) return high.volumeL;
  return low.volumeL + ((high.volumeL - low.volumeL) * (level - low.levelM)) / (high.levelM - low.levelM);
}
