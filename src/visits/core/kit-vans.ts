import { group } from 'd3-array';
import { type Millionths, millionthsOf, quantityText } from '../../store/core/quantity.js';

/** What lies in one van, and for what some of it is kept back there. */
export interface VanStock {
  readonly itemId: string;
  readonly personId: string;
  /** Whose van */
  readonly name: string;
  readonly onHand: string;
  readonly reserved: readonly { readonly visitId: string | null; readonly jobId: string | null; readonly quantity: string }[];
}

/** What somebody who does not go can hand over. */
export interface SpareInVan {
  readonly itemId: string;
  /** Whose van */
  readonly name: string;
  readonly quantity: string;
}

interface VisitThatTakes {
  readonly id: string;
  readonly people: readonly { readonly personId: string }[];
  readonly jobs: readonly { readonly id: string }[];
}

/**
 * What the vans of those who stay away can spare for a visit, the fullest first: what lies there less what is kept back there, but for this visit and its jobs.
 *
 * @example spareInVans([{ itemId: 'i', personId: 'a', name: 'Ada', onHand: '3', reserved: [{ visitId: 'other', jobId: null, quantity: '1' }] }], { id: 'v', people: [], jobs: [] }) // => [{ "itemId": "i", "name": "Ada", "quantity": "2" }]
 */
export function spareInVans(vans: readonly VanStock[], visit: VisitThatTakes): SpareInVan[] {
  const others = vans.filter((van) => visit.people.every(({ personId }) => personId !== van.personId));
  return [...group(others, ({ itemId, personId }) => `${itemId} ${personId}`).values()]
    .flatMap((ofPerson) => {
      const free = ofPerson.map((van) => freeIn(van, visit)).reduce((sum, size) => sum + size, 0n);
      return ofPerson.slice(0, 1).map(({ itemId, name }) => ({ itemId, name, free }));
    })
    .filter(({ free }) => free > 0n)
    .sort((a, b) => Number(b.free - a.free) || a.name.localeCompare(b.name, 'en'))
    .map(({ itemId, name, free }) => ({ itemId, name, quantity: quantityText(free) }));
}

function freeIn({ onHand, reserved }: VanStock, { id, jobs }: VisitThatTakes): Millionths {
  const forOthers = reserved.filter(({ visitId, jobId }) => visitId !== id && jobs.every((job) => job.id !== jobId));
  const free = (millionthsOf(onHand) ?? 0n) - forOthers.reduce((sum, { quantity }) => sum + (millionthsOf(quantity) ?? 0n), 0n);
  return free > 0n ? free : 0n;
}
