export const TANK_SHAPES = ['vertical-cylinder', 'horizontal-cylinder', 'rectangular', 'drum', 'table'] as const;
export type TankShape = (typeof TANK_SHAPES)[number];

interface Measures {
  readonly shape: TankShape;
  readonly diameterM: number | null;
  readonly lengthM: number | null;
  readonly widthM: number | null;
  readonly capacityL: number;
  readonly heelL: number;
  readonly heightM?: number;
  readonly levelTable?: readonly { readonly levelM: number; readonly volumeL: number }[] | null;
}

const NEEDED = {
  'vertical-cylinder': ['diameterM'],
  'horizontal-cylinder': ['diameterM', 'lengthM'],
  rectangular: ['lengthM', 'widthM'],
  drum: [],
  table: [],
} as const satisfies Record<TankShape, readonly ('diameterM' | 'lengthM' | 'widthM')[]>;

/**
 * What is missing or contradictory in the measures of a tank, so that a dip of it can be read as litres; null where nothing is.
 *
 * @example tankProblem({ shape: 'rectangular', diameterM: null, lengthM: 1, widthM: null, capacityL: 500, heelL: 20 }) // => { "field": "widthM", "message": "is needed for a tank that is rectangular" }
 */
export function tankProblem(tank: Measures): { field: string; message: string } | null {
  const missing = NEEDED[tank.shape].find((measure) => tank[measure] === null);
  if (missing !== undefined) return { field: missing, message: `is needed for a tank that is ${tank.shape === 'rectangular' ? '' : 'a '}${tank.shape}` };
  if (tank.heelL >= tank.capacityL) return { field: 'heelL', message: 'must be less than the capacity: what lies below the suction cannot be all of it' };
  return tank.shape === 'table' ? tableProblem(tank) : null;
}

function tableProblem({ levelTable, heightM, capacityL }: Measures): { field: string; message: string } | null {
  const fault = (message: string) => ({ field: 'levelTable', message });
  if (levelTable == null || levelTable.length < 2) return fault('needs two rows or more: levels with what the tank holds up to there');
  const falls = levelTable.find((row, at) => at > 0 && (row.levelM <= (levelTable[at - 1]?.levelM ?? 0) || row.volumeL < (levelTable[at - 1]?.volumeL ?? 0)));
  if (falls !== undefined) return fault(`must rise from row to row: at ${falls.levelM} m it does not`);
  const last = levelTable.at(-1);
  if (last !== undefined && last.volumeL > capacityL) return fault(`holds ${last.volumeL} L in its last row, more than the capacity of ${capacityL} L`);
  if (last !== undefined && heightM !== undefined && last.levelM > heightM) return fault(`goes up to ${last.levelM} m, beyond the height of ${heightM} m`);
  return null;
}
