import { Injectable } from '@nestjs/common';
import type { Reader } from '../../app/index.js';
import { type FittedRow, fittedParts } from './fitted.repository.js';
import { type PlannedRow, plannedWork } from './planned.repository.js';
import {
  type Coming,
  comingStock,
  type Items,
  type LotOnHand,
  type OpenReservation,
  openReservations,
  type StockItem,
  type StockPlace,
  siteSupplies,
  stockItems,
  stockPlaces,
  successions,
  usableStock,
} from './stock-facts.repository.js';
import { type TankNeed, TankNeeds } from './tank-needs.js';
import { knownFor, monthlyUse, type UseAtPlace } from './use.repository.js';

/** All that is known of one item and of those that it replaces. */
export interface ItemFacts {
  readonly item: StockItem;
  readonly stock: readonly LotOnHand[];
  readonly reservations: readonly OpenReservation[];
  readonly coming: readonly Coming[];
  readonly use: readonly UseAtPlace[];
  /** Complete months since the ledger first knew of it */
  readonly months: number;
  readonly planned: readonly PlannedRow[];
  readonly fitted: readonly FittedRow[];
  readonly tanks: readonly TankNeed[];
}

export interface FactsOfStore {
  readonly places: readonly StockPlace[];
  /** The store that the work at a site, or a place, is supplied from */
  readonly suppliesSite: (siteId: string) => string | null;
  readonly items: readonly ItemFacts[];
}

/** Reads what orders are decided by, for all items or for some: the same number of statements, however many, side by side. Not for the reader of a transaction, which has one session. */
@Injectable()
export class StoreFacts {
  constructor(private readonly tanks: TankNeeds) {}

  async read(reader: Reader, asked: Items, today: string): Promise<FactsOfStore> {
    const replaced = finalItems(await successions(reader));
    const items = asked === null ? null : withReplaced(asked, replaced);
    const [places, supplies, known, stock, reservations, coming, use, months, planned, fitted, tanks] = await Promise.all([
      stockPlaces(reader),
      siteSupplies(reader),
      stockItems(reader, items),
      usableStock(reader, items, today),
      openReservations(reader, items),
      comingStock(reader, items),
      monthlyUse(reader, items, today),
      knownFor(reader, items, today),
      plannedWork(reader, items, today),
      fittedParts(reader, items, today),
      this.tanks.all(),
    ]);
    const groups = {
      stock: grouped(stock, replaced),
      reservations: grouped(reservations, replaced),
      coming: grouped(coming, replaced),
      use: grouped(use, replaced),
      months: grouped(months, replaced),
      planned: grouped(planned, replaced),
      fitted: grouped(fitted, replaced),
      tanks: grouped(tanks, replaced),
    };
    const main = places.find(({ kind }) => kind === 'store')?.id ?? null;
    const bySite = new Map(supplies.map(({ siteId, placeId }) => [siteId, placeId]));
    const open = new Set(places.map(({ id }) => id));
    return {
      places,
      suppliesSite: (siteId) => {
        const chosen = bySite.get(siteId);
        return chosen !== undefined && open.has(chosen) ? chosen : main;
      },
      items: known
        .filter(({ id }) => !replaced.has(id))
        .map((item) => ({
          item,
          stock: groups.stock.get(item.id) ?? [],
          reservations: groups.reservations.get(item.id) ?? [],
          coming: groups.coming.get(item.id) ?? [],
          use: groups.use.get(item.id) ?? [],
          months: Math.max(0, ...(groups.months.get(item.id) ?? []).map((each) => each.months)),
          planned: groups.planned.get(item.id) ?? [],
          fitted: groups.fitted.get(item.id) ?? [],
          tanks: groups.tanks.get(item.id) ?? [],
        })),
    };
  }
}

/** Of each item that is replaced, what is bought in the end. Who replaces whom in a circle is replaced by nobody. */
function finalItems(pairs: readonly { itemId: string; successorId: string }[]): Map<string, string> {
  const next = new Map(pairs.map(({ itemId, successorId }) => [itemId, successorId]));
  const final = new Map<string, string>();
  for (const itemId of next.keys()) {
    const seen = new Set([itemId]);
    let last = itemId;
    for (let after = next.get(last); after !== undefined && !seen.has(after); after = next.get(last)) {
      seen.add(after);
      last = after;
    }
    if (last !== itemId && !next.has(last)) final.set(itemId, last);
  }
  return final;
}

function withReplaced(asked: readonly string[], replaced: ReadonlyMap<string, string>): string[] {
  const finals = new Set(asked.map((id) => replaced.get(id) ?? id));
  return [...finals, ...[...replaced].filter(([, last]) => finals.has(last)).map(([id]) => id)];
}

function grouped<T extends { readonly itemId: string }>(rows: readonly T[], replaced: ReadonlyMap<string, string>): Map<string, T[]> {
  const groups = new Map<string, T[]>();
  for (const row of rows) {
    const key = replaced.get(row.itemId) ?? row.itemId;
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [row]);
    else group.push(row);
  }
  return groups;
}
