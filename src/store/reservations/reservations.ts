import { Injectable } from '@nestjs/common';
import {
  type Caller,
  Clock,
  Conflict,
  Database,
  faultIn,
  type KeyedRequest,
  KeyedWork,
  NotFound,
  newId,
  type Reader,
  toPage,
  viewOf,
} from '../../app/index.js';
import { dateOf } from '../../registry/index.js';
import type { TableRow } from '../csv/table-file.js';
import {
  AvailablePageView,
  type AvailableQuery,
  type AvailableTableQuery,
  AvailableView,
  type ReservationDto,
  ReservationsPageView,
  type ReservationsQuery,
  ReservationView,
} from './reservations.dto.js';
import {
  availablePage,
  availableTable,
  enterReservation,
  keepForVisit,
  knownFor,
  release,
  releaseOverJob,
  reservationsPage,
  reservedAt,
  type Wanted,
} from './reservations.repository.js';

/** Stock that is kept back for work. It may be more than there is: then it says what is short. */
@Injectable()
export class Reservations {
  constructor(
    private readonly database: Database,
    private readonly keyed: KeyedWork,
    private readonly clock: Clock,
  ) {}

  async available(query: AvailableQuery): Promise<AvailablePageView> {
    const rows = await availablePage(this.database.prisma, query);
    const view = (row: (typeof rows)[number]) => viewOf(AvailableView, row);
    return viewOf(
      AvailablePageView,
      toPage(rows, query.limit, view, ({ placeName, itemCode }) => [placeName, itemCode]),
    );
  }

  async table(query: AvailableTableQuery): Promise<TableRow[]> {
    const rows = await availableTable(this.database.prisma, query);
    return rows.map((row) => ({
      place: row.placeName,
      item: row.itemCode,
      name: row.itemName,
      unit: row.unit,
      usable: row.onHand,
      reserved: row.reserved,
      available: row.available,
      short: row.short,
      'on order': row.onOrder,
      'on the way': row.onTheWay,
    }));
  }

  async list(query: ReservationsQuery): Promise<ReservationsPageView> {
    const rows = await reservationsPage(this.database.prisma, query);
    const view = (row: (typeof rows)[number]) => viewOf(ReservationView, row);
    return viewOf(
      ReservationsPageView,
      toPage(rows, query.limit, view, ({ neededOn, id }) => [neededOn, id]),
    );
  }

  /** By hand, for a job or a visit. */
  reserve(
    caller: Caller,
    key: KeyedRequest,
    { itemId, placeId, jobId = null, visitId = null, quantity, neededOn, note = '' }: ReservationDto,
  ): Promise<ReservationView> {
    if ((jobId === null) === (visitId === null))
      throw faultIn(jobId === null ? 'jobId' : 'visitId', 'say for which job or which visit, and only one of the two');
    return this.keyed.run(key, async (tx) => {
      const known = await knownFor(tx, { itemId, placeId, jobId, visitId });
      if (!known.item) throw faultIn('itemId', 'must be an item that has not ended');
      if (!known.place) throw faultIn('placeId', 'must be a store, a van or a place at a site that has not ended');
      if (jobId !== null && !known.job) throw faultIn('jobId', 'must be a job that is not over');
      if (visitId !== null && !known.visit) throw faultIn('visitId', 'must be a visit that is not over');
      const id = newId();
      const by = { madeAt: this.clock.now(), madeBy: caller.name };
      await enterReservation(tx, { id, itemId, placeId, jobId, visitId, quantity, neededOn: dateOf(neededOn), note, ...by });
      return one(tx, id);
    });
  }

  releaseOne(id: string): Promise<ReservationView> {
    return this.database.write(async (tx) => {
      const { count } = await release(tx, { id }, this.clock.now());
      const view = await one(tx, id);
      if (count === 0) throw new Conflict(`This reservation is over: ${view.outcome}`);
      return view;
    });
  }

  /** Makes what is kept back for a visit equal to what it wants; what it has taken stays taken. */
  keepForVisit(tx: Reader, visitId: string, wanted: readonly Wanted[], by: { neededOn: string; name: string }): Promise<void> {
    return keepForVisit(tx, visitId, wanted, { ...by, at: this.clock.now() });
  }

  async releaseVisit(tx: Reader, visitId: string): Promise<void> {
    await release(tx, { visitId }, this.clock.now());
  }

  /** Of a job that is over; of another one nothing is released. */
  async releaseOverJob(tx: Reader, jobId: string): Promise<void> {
    await releaseOverJob(tx, jobId, this.clock.now());
  }

  /** What others have kept back at these places, by place and item. */
  reservedAt(reader: Reader, placeIds: readonly string[], exceptVisitId: string) {
    return reservedAt(reader, placeIds, exceptVisitId);
  }
}

async function one(tx: Reader, id: string): Promise<ReservationView> {
  const [row] = await reservationsPage(tx, { limit: 1 }, id);
  if (row === undefined) throw new NotFound('reservation', id);
  return viewOf(ReservationView, row);
}
