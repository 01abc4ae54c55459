import { Injectable } from '@nestjs/common';
import type { Reader } from '../app/index.js';
import { type ItemAtPlace, placesOfPeople, type StockedPlace, stockOf } from './stock.repository.js';

/** What people can take parts from: their vans, and the stores. Two statements, whatever lies there. */
@Injectable()
export class StockOfPeople {
  async read(reader: Reader, personIds: readonly string[]): Promise<StockedPlace[]> {
    const places = await placesOfPeople(reader, personIds);
    const stock = await stockOf(
      reader,
      places.map(({ id }) => id),
    );
    const byPlace = grouped(stock);
    return places.map((place) => ({ ...place, stock: byPlace.get(place.id) ?? [] }));
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
