import { setImmediate as nextTurn } from 'node:timers/promises';
import { Injectable } from '@nestjs/common';
import { Clock, type Reader } from '../../app/index.js';
import { dayOf } from '../../registry/index.js';
import { fitCatalogue } from '../core/demand/catalogue/fit-catalogue.js';
import { learnRecord } from '../core/demand/outlooks/learn-record.js';
import type { OutlookRecord } from '../core/demand/types.js';
import { pastOutlooks } from '../demand/fitted.repository.js';
import { skidNames } from '../demand/planned.repository.js';
import { sourcesOfPlaces } from '../demand/sources-of-places.js';
import type { Items } from '../demand/stock-facts.repository.js';
import { type FactsOfStore, type ItemFacts, StoreFacts } from '../demand/store-facts.js';
import { detailOfLine, type LineDetail, skidsOf } from './detail-of-line.js';
import { type LineOfPlace, linesOfItem } from './lines-of-item.js';
import type { Learnt } from './reorder.repository.js';
import { type SettingRow, stockSettings } from './settings.repository.js';
import { type Way, WaysToBuy } from './ways-to-buy.js';

export interface ComputedLine {
  readonly facts: ItemFacts;
  readonly line: LineOfPlace;
  readonly detail: LineDetail;
}

/** Items between two breaths: others want to be served meanwhile. */
const AT_ONCE = 20;

/** Lines from facts, for all items or some: the same number of statements, however many. */
@Injectable()
export class ComputeLines {
  constructor(
    private readonly facts: StoreFacts,
    private readonly ways: WaysToBuy,
    private readonly clock: Clock,
  ) {}

  read(reader: Reader, items: Items): Promise<FactsOfStore> {
    return this.facts.read(reader, items, dayOf(this.clock.now()));
  }

  async lines(reader: Reader, store: FactsOfStore, { fit, record }: Learnt): Promise<ComputedLine[]> {
    const now = this.clock.now();
    const today = dayOf(now);
    const itemIds = store.items.map(({ item }) => item.id);
    const [rows, ways] = await Promise.all([stockSettings(reader, itemIds), this.ways.ofItems(reader, itemIds, now)]);
    const settings = settingsByItem(rows);
    const computed: { facts: ItemFacts; line: LineOfPlace; way: Way | null }[] = [];
    for (const [at, facts] of store.items.entries()) {
      if (at % AT_ONCE === AT_ONCE - 1) await nextTurn();
      const way = ways.get(facts.item.id) ?? null;
      const bought = way === null ? null : { supplierId: way.supplier.id, leadTime: way.leadTime, orderCost: way.supplier.orderCost };
      const lines = linesOfItem({ facts, store, settings: settings.get(facts.item.id) ?? new Map(), way: bought, fit, record, today });
      for (const line of lines) computed.push({ facts, line, way });
    }
    const skids = new Map((await skidNames(reader, [...new Set(computed.flatMap(({ line }) => skidsOf(line)))])).map((skid) => [skid.id, skid]));
    const names = new Map(store.places.map(({ id, name }) => [id, name]));
    return computed.map(({ facts, line, way }) => {
      const described = {
        shelfLifeDays: facts.item.shelfLifeDays,
        way,
        record,
        today,
        placeName: (id: string) => names.get(id) ?? '',
        skid: (id: string) => skids.get(id) ?? null,
      };
      return { facts, line, detail: detailOfLine(line, described) };
    });
  }

  /** What the items have in common, by the use of all stores together. */
  fit(store: FactsOfStore): Learnt['fit'] {
    const today = dayOf(this.clock.now());
    const everywhere = () => true;
    return fitCatalogue(store.items.filter(({ months }) => months > 0).map((facts) => sourcesOfPlaces(facts, everywhere, everywhere, today).sources.use));
  }

  async record(reader: Reader): Promise<OutlookRecord> {
    return learnRecord((await pastOutlooks(reader)).map(({ siteId, ...past }) => ({ ...past, water: siteId })));
  }
}

function settingsByItem(rows: readonly SettingRow[]): Map<string, Map<string, SettingRow>> {
  const settings = new Map<string, Map<string, SettingRow>>();
  for (const row of rows) settings.set(row.itemId, (settings.get(row.itemId) ?? new Map<string, SettingRow>()).set(row.placeId, row));
  return settings;
}
