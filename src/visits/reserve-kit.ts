import { Injectable } from '@nestjs/common';
import type { Reader } from '../app/index.js';
import { Reservations, StockOfPeople } from '../store/index.js';
import { kitPlaces } from './core/kit-places.js';
import { stockFor, VisitKits } from './visit-kits.js';
import { findVisit } from './visits.repository.js';

/** Keeps back what a promised visit takes along. One that is under way keeps what it has; one that is only planned, over or called off keeps nothing. */
@Injectable()
export class ReserveKit {
  constructor(
    private readonly kits: VisitKits,
    private readonly stock: StockOfPeople,
    private readonly reservations: Reservations,
  ) {}

  async follow(tx: Reader, visitId: string, by: string): Promise<void> {
    const visit = await findVisit(tx, { clientId: null }, visitId);
    if (visit === null || visit.state === 'under way') return;
    if (visit.state !== 'promised') return this.reservations.releaseVisit(tx, visitId);
    const places = await this.stock.read(
      tx,
      visit.people.map(({ personId }) => personId),
    );
    const kit = (await this.kits.of(tx, [visit], places, [])).get(visitId);
    const reserved = await this.reservations.reservedAt(
      tx,
      places.map(({ id }) => id),
      visitId,
    );
    const otherwise = places.find(({ kind }) => kind === 'store') ?? places[0] ?? null;
    const wanted = kitPlaces(kit?.items ?? [], stockFor(visit, places), reserved, otherwise);
    return this.reservations.keepForVisit(tx, visitId, wanted, { neededOn: visit.onDay, name: by });
  }
}
