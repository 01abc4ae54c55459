import { type Millionths, millionthsOf, quantityText } from '../../store/core/quantity.js';
import type { KitStock } from './kit.js';

export interface PlacedItem {
  readonly itemId: string;
  readonly placeId: string;
  readonly quantity: string;
}

interface Wanted {
  readonly itemId: string;
  readonly quantity: string;
}

/**
 * Where the items of a kit are kept back: what the vans of those who go can spare, then what one store after the other can, the fullest first. What is nowhere is kept back
 * at the fullest store, so that it is missing there; without a store, in the first van. `reserved` is what others have kept back.
 *
 * @example kitPlaces([{ itemId: 'i', quantity: '3' }], [{ itemId: 'i', placeId: 'v', placeName: 'Van', kind: 'van', onHand: '1' }], [], { id: 's', kind: 'store' }) // => [{ "itemId": "i", "placeId": "v", "quantity": "1" }, { "itemId": "i", "placeId": "s", "quantity": "2" }]
 */
export function kitPlaces(
  wanted: readonly Wanted[],
  stock: readonly KitStock[],
  reserved: readonly { readonly placeId: string; readonly itemId: string; readonly reserved: string }[],
  otherwise: { readonly id: string; readonly kind: string } | null,
): PlacedItem[] {
  return wanted.flatMap(({ itemId, quantity }) => {
    const spare = stock
      .filter((line) => line.itemId === itemId)
      .map(({ placeId, kind, onHand }) => {
        const kept = reserved.find((line) => line.placeId === placeId && line.itemId === itemId)?.reserved ?? '0';
        return { placeId, kind, free: (millionthsOf(onHand) ?? 0n) - (millionthsOf(kept) ?? 0n) };
      })
      .sort((a, b) => (a.kind === b.kind ? Number(b.free - a.free) : a.kind === 'van' ? -1 : 1));
    const placed = new Map<string, Millionths>();
    let left = millionthsOf(quantity) ?? 0n;
    const put = (placeId: string, size: Millionths) => {
      if (size <= 0n) return;
      placed.set(placeId, (placed.get(placeId) ?? 0n) + size);
      left -= size;
    };
    for (const { placeId, free } of spare) put(placeId, free < left ? free : left);
    const rest = spare.find(({ kind }) => kind === 'store')?.placeId ?? otherwise?.id ?? spare[0]?.placeId;
    if (rest !== undefined) put(rest, left);
    return [...placed].map(([placeId, size]) => ({ itemId, placeId, quantity: quantityText(size) }));
  });
}
