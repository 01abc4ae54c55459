import { type Database, newId } from '../src/app/index.js';
import type { Ledger } from '../src/store/index.js';
import { idOf, type ScenarioIds } from './insert-registry.js';
import type { Scenario } from './types.js';

/** Where stock lies, and how it came there: posted to the ledger as people post it. */
export async function insertStore(database: Database, ledger: Ledger, { work }: Scenario, ids: ScenarioIds): Promise<void> {
  const places = new Map(work.places.map(({ key }) => [key, newId()]));
  await database.prisma.place.createMany({
    data: work.places.map(({ key, name, kind, personKey, siteKey, note }) => ({
      id: idOf(places, key),
      name,
      kind,
      personId: personKey === null ? null : idOf(ids.people, personKey),
      siteId: siteKey === null ? null : idOf(ids.sites, siteKey).id,
      note,
    })),
  });
  for (const { kind, at, by, note, moves } of work.stockPosts) {
    const posted = await database.write((tx) =>
      ledger.post(tx, {
        id: newId(),
        kind,
        at,
        caller: { id: idOf(ids.people, by), name: idOf(ids.names, by) },
        note,
        moves: moves.map(({ itemCode, lot, quantity, fromKey, toKey }) => ({
          itemId: idOf(ids.items, itemCode),
          lot,
          partId: null,
          quantity: String(quantity),
          fromPlaceId: fromKey === null ? null : idOf(places, fromKey),
          toPlaceId: toKey === null ? null : idOf(places, toKey),
        })),
      }),
    );
    if (posted.kind === 'short') throw new Error(`The demo scenario moves more than there is: ${posted.lines.map(({ itemCode }) => itemCode).join(', ')}`);
  }
}
