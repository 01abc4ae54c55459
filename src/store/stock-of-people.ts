import { Injectable } from '@nestjs/common';
import type { Reader } from '../app/index.js';
import { type ItemAtPlace, type ItemInVan, placesOfPeople, type StockedPlace, stockOf, vansWith } from './stock.repository.js';

/** What people can take parts from. */
@Injectable()
export class StockOfPeople {
  /** Their vans, and the stores. Two statements, whatever lies there. */
  async read(reader: Reader, personIds: readonly string[]): Promise<StockedPlace[]> {
    const places = await placesOfPeople(reader, personIds);
    const stock = await stockOf(
      reader,
      places.map(({ id }) => id),
    );
    const byPlace = grouped(stock);
    return places.map((place) => ({ ...place, stock: byPlace.get(place.id) ?? [] }));
  }

  /** The vans that hold these items, whosever they are. One statement. */
  inVans(reader: Reader, itemIds: readonly string[]): Promise<ItemInVan[]> {
    return vansWith(reader, itemIds);
  }
}

function grouped(stock: readonly (ItemAtPlace & { placeId: string })[]): Map<string, ItemAtPlace[]> {
  const byPlace = new Map<string, ItemAtPlace[]>();
  for (const { placeId, ...line } of stock) {
    const lines = byPlace.get(placeId);
    if (lines === undefined) byPlace.set(placeId, [line]);
    else lines.push(line);
  }
  return byPlace;
}
