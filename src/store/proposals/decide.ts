import { Injectable } from '@nestjs/common';
import { type Caller, Clock, Conflict, Database, faultIn, NotFound, newId, type Reader } from '../../app/index.js';
import { dateOf, dayOf } from '../../registry/index.js';
import { endDecision, enterDecision, lockLine } from './decisions.repository.js';
import { lineView } from './line-views.js';
import type { AcceptDto, ChangeDto, DismissDto } from './reorder.dto.js';
import { type LineRow, lineOfId } from './reorder.repository.js';
import type { ReorderLineView } from './reorder-views.dto.js';
import { knownOf } from './settings.repository.js';

/** What people decide on lines of the list. Each decision stays on record, with its reason. */
@Injectable()
export class Decide {
  constructor(
    private readonly database: Database,
    private readonly clock: Clock,
  ) {}

  accept(caller: Caller, lineId: string, { quantity, supplierId, reason = '' }: AcceptDto): Promise<ReorderLineView> {
    return this.decide(lineId, async (tx, line) => {
      const { action, quantity: proposed, purchase } = line.detail;
      if (action === 'nothing')
        throw new Conflict(`There is enough of ${line.itemCode} at ${line.placeName}. Change the line with a reason where it is to be bought all the same`);
      const changed = (quantity != null && Number(quantity) !== Number(proposed)) || (supplierId != null && supplierId !== purchase?.supplierId);
      if (changed && reason.trim() === '') throw faultIn('reason', 'say why it is another quantity or supplier than proposed');
      const what = { quantity: quantity ?? proposed, supplierId: supplierId ?? null, reason: reason.trim(), until: null };
      await this.enter(tx, caller, line, { state: changed ? 'changed' : 'accepted', ...what });
    });
  }

  change(caller: Caller, lineId: string, { quantity, supplierId, reason }: ChangeDto): Promise<ReorderLineView> {
    return this.decide(lineId, (tx, line) => this.enter(tx, caller, line, { state: 'changed', quantity, supplierId: supplierId ?? null, reason, until: null }));
  }

  dismiss(caller: Caller, lineId: string, { reason, until = null }: DismissDto): Promise<ReorderLineView> {
    const today = dayOf(this.clock.now());
    if (until != null && until < today) throw faultIn('until', `must be a day from today (${today}) on`);
    return this.decide(lineId, async (tx, line) => {
      if (line.detail.action === 'nothing') throw new Conflict(`Nothing is proposed of ${line.itemCode} at ${line.placeName}`);
      await this.enter(tx, caller, line, { state: 'dismissed', quantity: line.detail.quantity, supplierId: null, reason, until });
    });
  }

  /** Takes back what was decided: the line is open again. */
  reopen(caller: Caller, lineId: string): Promise<ReorderLineView> {
    return this.decide(lineId, async (tx, line) => {
      const { count } = await endDecision(tx, line, { endedAt: this.clock.now(), endedBy: caller.name, endedWhy: 'taken back' });
      if (count === 0) throw new Conflict('Nothing was decided on this line, or it was ordered meanwhile');
    });
  }

  private decide(lineId: string, work: (tx: Reader, line: LineRow) => Promise<void>): Promise<ReorderLineView> {
    return this.database.write(async (tx) => {
      const line = await lineOfId(tx, lineId);
      if (line === null) throw new NotFound('line of the reorder list', lineId);
      await lockLine(tx, line);
      await work(tx, line);
      const after = await lineOfId(tx, lineId);
      if (after === null) throw new NotFound('line of the reorder list', lineId);
      return lineView(after, after.detail, after.decision);
    });
  }

  private async enter(
    tx: Reader,
    caller: Caller,
    { itemId, itemCode, placeId, detail }: LineRow,
    decided: { state: 'accepted' | 'changed' | 'dismissed'; quantity: string; supplierId: string | null; reason: string; until: string | null },
  ): Promise<void> {
    const { supplierId, until } = decided;
    if (supplierId !== null && !(await knownOf(tx, { itemId, supplierId })).supplier)
      throw faultIn('supplierId', `must be a supplier that offers ${itemCode}: enter its offer first`);
    const at = this.clock.now();
    await endDecision(tx, { itemId, placeId }, { endedAt: at, endedBy: caller.name, endedWhy: 'decided anew' });
    const told = { proposed: detail.action === 'nothing' ? '0' : detail.quantity, position: detail.position, at, byId: caller.id, by: caller.name };
    await enterDecision(tx, { id: newId(), itemId, placeId, ...decided, ...told, until: until === null ? null : dateOf(until) });
  }
}
