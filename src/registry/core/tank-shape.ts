export const TANK_SHAPES = ['vertical-cylinder', 'horizontal-cylinder', 'rectangular', 'drum'] as const;
export type TankShape = (typeof TANK_SHAPES)[number];

interface Measures {
  readonly shape: TankShape;
  readonly diameterM: number | null;
  readonly lengthM: number | null;
  readonly widthM: number | null;
  readonly capacityL: number;
  readonly heelL: number;
}

const NEEDED = {
  'vertical-cylinder': ['diameterM'],
  'horizontal-cylinder': ['diameterM', 'lengthM'],
  rectangular: ['lengthM', 'widthM'],
  drum: [],
} as const satisfies Record<TankShape, readonly (keyof Measures)[]>;

/**
 * What is missing or contradictory in the measures of a tank, so that a dip of it can be read as litres; null where nothing is.
 *
 * @example tankProblem({ shape: 'rectangular', diameterM: null, lengthM: 1, widthM: null, capacityL: 500, heelL: 20 }) // => { "field": "widthM", "message": "is needed for a tank that is rectangular" }
 */
export function tankProblem(tank: Measures): { field: string; message: string } | null {
  const missing = NEEDED[tank.shape].find((measure) => tank[measure] === null);
  if (missing !== undefined) return { field: missing, message: `is needed for a tank that is ${tank.shape === 'rectangular' ? '' : 'a '}${tank.shape}` };
  if (tank.heelL >= tank.capacityL) return { field: 'heelL', message: 'must be less than the capacity: what lies below the suction cannot be all of it' };
  return null;
}
