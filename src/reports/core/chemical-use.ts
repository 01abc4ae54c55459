import { type TankForm, volumeAtLevelL } from '../../chemicals/core/tank-volume.js';

interface TankRecord extends TankForm {
  readonly dips: readonly { readonly at: string; readonly levelM: number }[];
  readonly deliveries: readonly { readonly at: string; readonly volumeL: number }[];
}

export type ChemicalUse =
  | { readonly kind: 'use'; readonly usedL: number; readonly fromAt: string; readonly toAt: string }
  | { readonly kind: 'too-little-data'; readonly have: number; readonly need: number };

/**
 * What was drawn from a tank between its first and its last dip, L: opening volume + deliveries between the two - closing volume.
 *
 * Behaviour at the edges: fewer than two dips say nothing. A use below zero is left so: it shows that a delivery is missing from the record.
 *
 * @example chemicalUse({ shape: 'drum', diameterM: null, lengthM: null, widthM: null, heightM: 1, capacityL: 200, heelL: 0, dips: [{ at: '2026-01-01T00:00:00Z', levelM: 0.5 }, { at: '2026-02-01T00:00:00Z', levelM: 0.75 }], deliveries: [{ at: '2026-01-10T00:00:00Z', volumeL: 80 }] }) // => { "kind": "use", "usedL": 30, "fromAt": "2026-01-01T00:00:00Z", "toAt": "2026-02-01T00:00:00Z" }
 */
export function chemicalUse(tank: TankRecord): ChemicalUse {
  const [first, last] = [tank.dips[0], tank.dips.at(-1)];
  if (first === undefined || last === undefined || first === last) return { kind: 'too-little-data', have: tank.dips.length, need: 2 };
  const between = tank.deliveries.filter(({ at }) => Date.parse(at) > Date.parse(first.at) && Date.parse(at) <= Date.parse(last.at));
  const delivered = between.reduce((sum, { volumeL }) => sum + volumeL, 0);
  return { kind: 'use', usedL: volumeAtLevelL(tank, first.levelM) + delivered - volumeAtLevelL(tank, last.levelM), fromAt: first.at, toAt: last.at };
}
