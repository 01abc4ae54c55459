import { Injectable } from '@nestjs/common';
import { Clock, Database, NotFound, newId, viewOf } from '../../app/index.js';
import { dayOf } from '../../registry/index.js';
import { ComputeLines } from './compute-lines.js';
import { decisionView, lineView } from './line-views.js';
import { RecomputeReorder } from './recompute-reorder.js';
import { decisionsOf, lineIds } from './reorder.repository.js';
import { ReorderItemView, StockCardView } from './reorder-views.dto.js';
import { stockCard } from './stock-card.js';
import { itemAsked, weeklyChanges } from './stock-card.repository.js';
import { settingView } from './stock-settings.js';

/** One item at all its places, computed when it is asked for. */
@Injectable()
export class ReorderItem {
  constructor(
    private readonly database: Database,
    private readonly computing: ComputeLines,
    private readonly recompute: RecomputeReorder,
    private readonly clock: Clock,
  ) {}

  async read(itemId: string): Promise<ReorderItemView> {
    const { prisma } = this.database;
    const item = await itemAsked(prisma, itemId);
    if (item === null) throw new NotFound('item', itemId);
    const now = this.clock.now();
    const [store, learnt] = await Promise.all([this.computing.read(prisma, [itemId]), this.recompute.learnt()]);
    const lines = await this.computing.lines(prisma, store, learnt);
    const ids = [...new Set([itemId, ...lines.map(({ facts }) => facts.item.id), ...lines.flatMap(({ facts }) => facts.stock.map((lot) => lot.itemId))])];
    const [changes, known, decisions] = await Promise.all([weeklyChanges(prisma, ids, now), lineIds(prisma, ids), decisionsOf(prisma, ids)]);
    const cards = lines.map((computed) => {
      const { facts, line, detail } = computed;
      const of = <T extends { readonly itemId: string; readonly placeId: string }>(rows: readonly T[]) =>
        rows.filter((row) => row.itemId === facts.item.id && row.placeId === line.place.id);
      const own = of(decisions);
      const named = {
        // A line that the list has not yet keeps no id.
        id: of(known)[0]?.id ?? newId(),
        itemId: facts.item.id,
        itemCode: facts.item.code,
        itemName: facts.item.name,
        unit: facts.item.unit,
        placeId: line.place.id,
        placeName: line.place.name,
        placeKind: line.place.kind,
        computedAt: now,
      };
      return viewOf(StockCardView, {
        line: lineView(named, detail, own.find(({ endedAt }) => endedAt === null) ?? null),
        ...stockCard(computed, changes, dayOf(now)),
        setting: settingView(facts.item.id, line.place.id, line.setting),
        decisions: own.map(decisionView),
      });
    });
    return viewOf(ReorderItemView, { ...item, cards });
  }
}
