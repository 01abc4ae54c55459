/** An item at a place that buys, as far as it matters to the others. */
export interface PlaceBalance {
  readonly placeId: string;
  /** To be ordered now */
  readonly wanted: number;
  /** What lies there free beyond what the place is to have */
  readonly surplus: number;
}

export interface Offered {
  readonly fromPlaceId: string;
  readonly quantity: number;
}

/**
 * What lies too much at one place for what is wanted at another, the largest surplus first; whoever wants most is served first. By place.
 *
 * @example [...shareSurplus([{ placeId: 'a', wanted: 3, surplus: 0 }, { placeId: 'b', wanted: 0, surplus: 2 }])] // => [["a", [{ "fromPlaceId": "b", "quantity": 2 }]]]
 */
export function shareSurplus(places: readonly PlaceBalance[]): ReadonlyMap<string, readonly Offered[]> {
  const left = places.filter(({ surplus }) => surplus >= 1).map(({ placeId, surplus }) => ({ placeId, surplus: Math.floor(surplus) }));
  left.sort((a, b) => b.surplus - a.surplus || a.placeId.localeCompare(b.placeId));
  const offered = new Map<string, readonly Offered[]>();
  if (left.length === 0) return offered;
  for (const { placeId, wanted } of places.filter((place) => place.wanted > 0).sort((a, b) => b.wanted - a.wanted || a.placeId.localeCompare(b.placeId))) {
    let open = wanted;
    const taken: Offered[] = [];
    for (const from of left) {
      if (open <= 0) break;
      const quantity = Math.min(open, from.surplus);
      if (quantity <= 0 || from.placeId === placeId) continue;
      taken.push({ fromPlaceId: from.placeId, quantity });
      from.surplus -= quantity;
      open -= quantity;
    }
    if (taken.length > 0) offered.set(placeId, taken);
  }
  return offered;
}
