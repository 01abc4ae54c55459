import { mustNotMeet } from '../../shared/incompatibility.js';
import type { SheetChemical } from '../../shared/task-sheet.js';
import { type Millionths, millionthsOf, quantityText } from '../../store/core/quantity.js';
import type { SpareInVan } from './kit-vans.js';

/** What one task takes, as its sheet says. */
export interface KitTask {
  readonly crew: number;
  readonly waterOffMinutes: number;
  readonly skills: readonly string[];
  readonly certificates: readonly string[];
  readonly tools: readonly string[];
  readonly instruments: readonly string[];
  readonly chemicals: readonly SheetChemical[];
  readonly parts: readonly KitPart[];
}

export interface KitPart {
  readonly itemId: string;
  readonly code: string;
  readonly name: string;
  readonly unit: string;
  readonly quantity: string;
  /** Once for a visit, however many tasks ask for it */
  readonly everyVisit: boolean;
}

/** What lies in a van of those who go, or in a store. */
export interface KitStock {
  readonly itemId: string;
  readonly placeId: string;
  readonly placeName: string;
  readonly kind: 'van' | 'store';
  readonly onHand: string;
}

export interface StoreHolds {
  readonly placeId: string;
  readonly placeName: string;
  readonly onHand: string;
}

/** What of an item is to be handed over by somebody who does not go. */
export interface KitHandOver {
  /** Whose van it is in */
  readonly name: string;
  readonly quantity: string;
}

export interface KitItem {
  readonly itemId: string;
  readonly code: string;
  readonly name: string;
  readonly unit: string;
  readonly quantity: string;
  /** In the vans of those who go */
  readonly inVan: string;
  /** To be taken along from a store, or from somebody else */
  readonly toPick: string;
  readonly stores: readonly StoreHolds[];
  /** Of what the stores do not hold, what can be had from other vans; no more than is needed */
  readonly otherVans: readonly KitHandOver[];
  /** What is to be had nowhere */
  readonly short: string;
}

export interface Kit {
  readonly items: readonly KitItem[];
  readonly chemicals: readonly SheetChemical[];
  /** Chemicals of this kit that must not meet, in the van neither */
  readonly keepApart: readonly { readonly chemicals: readonly [string, string]; readonly happens: string }[];
  readonly tools: readonly string[];
  readonly instruments: readonly string[];
  readonly skills: readonly string[];
  readonly certificates: readonly string[];
  /** The most people that a task needs */
  readonly crew: number;
  readonly waterOffMinutes: number;
}

/**
 * Everything that a visit needs: parts and chemicals summed over its tasks (of what every visit uses once, the most that a task asks for), tools
 * and instruments once each, and what of the parts must be picked from a store because the vans of those who go do not hold it. What no store holds either is taken from the other vans,
 * in the order in which they are given.
 *
 * @example kitOf([], [], []).items // => []
 */
export function kitOf(tasks: readonly KitTask[], stock: readonly KitStock[], otherVans: readonly SpareInVan[]): Kit {
  const chemicals = chemicalsOf(tasks);
  return {
    items: itemsOf(tasks, stock, otherVans),
    chemicals,
    keepApart: keptApart(chemicals.map(({ chemical }) => chemical)),
    tools: named(tasks, ({ tools }) => tools),
    instruments: named(tasks, ({ instruments }) => instruments),
    skills: named(tasks, ({ skills }) => skills),
    certificates: named(tasks, ({ certificates }) => certificates),
    crew: Math.max(0, ...tasks.map(({ crew }) => crew)),
    waterOffMinutes: tasks.reduce((sum, { waterOffMinutes }) => sum + waterOffMinutes, 0),
  };
}

const named = (tasks: readonly KitTask[], of: (task: KitTask) => readonly string[]) => [...new Set(tasks.flatMap(of))].sort((a, b) => a.localeCompare(b, 'en'));

function itemsOf(tasks: readonly KitTask[], stock: readonly KitStock[], otherVans: readonly SpareInVan[]): KitItem[] {
  const asked = new Map<string, { part: KitPart; summed: Millionths; once: Millionths }>();
  for (const part of tasks.flatMap(({ parts }) => parts)) {
    const line = asked.get(part.itemId) ?? { part, summed: 0n, once: 0n };
    const size = millionthsOf(part.quantity) ?? 0n;
    if (part.everyVisit) line.once = size > line.once ? size : line.once;
    else line.summed += size;
    asked.set(part.itemId, line);
  }
  return [...asked.values()]
    .map(({ part: { itemId, code, name, unit }, summed, once }) => {
      const held = stock.filter((line) => line.itemId === itemId);
      const stores = held.filter(({ kind }) => kind === 'store');
      const wanted = summed + once;
      const inVan = total(held.filter(({ kind }) => kind === 'van'));
      const toPick = atLeastNothing(wanted - inVan);
      const handed = handOvers(
        atLeastNothing(toPick - total(stores)),
        otherVans.filter((line) => line.itemId === itemId),
      );
      return {
        itemId,
        code,
        name,
        unit,
        quantity: quantityText(wanted),
        inVan: quantityText(inVan),
        toPick: quantityText(toPick),
        stores: stores.map(({ placeId, placeName, onHand }) => ({ placeId, placeName, onHand })),
        otherVans: handed.from,
        short: quantityText(handed.left),
      };
    })
    .sort((a, b) => a.code.localeCompare(b.code, 'en'));
}

function handOvers(missing: Millionths, vans: readonly SpareInVan[]): { from: KitHandOver[]; left: Millionths } {
  let left = missing;
  const from = vans.flatMap(({ name, quantity }) => {
    const spare = millionthsOf(quantity) ?? 0n;
    const size = spare < left ? spare : left;
    left -= size;
    return size > 0n ? [{ name, quantity: quantityText(size) }] : [];
  });
  return { from, left };
}

const total = (held: readonly KitStock[]) => held.reduce((sum, { onHand }) => sum + (millionthsOf(onHand) ?? 0n), 0n);
const atLeastNothing = (size: Millionths) => (size > 0n ? size : 0n);

function chemicalsOf(tasks: readonly KitTask[]): SheetChemical[] {
  const sums = new Map<string, SheetChemical>();
  for (const { chemical, litres, strength } of tasks.flatMap((task) => task.chemicals)) {
    const key = JSON.stringify([chemical, strength]);
    sums.set(key, { chemical, strength, litres: Math.round(((sums.get(key)?.litres ?? 0) + litres) * 1000) / 1000 });
  }
  return [...sums.values()].sort((a, b) => a.chemical.localeCompare(b.chemical, 'en') || a.strength.localeCompare(b.strength, 'en'));
}

function keptApart(chemicals: readonly string[]): Kit['keepApart'] {
  const names = [...new Set(chemicals)];
  return names.flatMap((one, at) =>
    names.slice(at + 1).flatMap((other) => {
      const danger = mustNotMeet(one, other);
      return danger === null ? [] : [{ chemicals: [one, other] as const, happens: danger.happens }];
    }),
  );
}
