import { viewOf } from '../../app/index.js';
import type { LineDetail } from './detail-of-line.js';
import type { DecisionRow, LineRow } from './reorder.repository.js';
import {
  DecisionView,
  IfItWaitsView,
  NeedReasonView,
  NeedView,
  OfferedTransferView,
  PaceView,
  PurchaseView,
  ReorderLineView,
  ServiceView,
} from './reorder-views.dto.js';

export function decisionView({ itemId: _item, placeId: _place, position: _position, at, endedAt, ...row }: DecisionRow): DecisionView {
  return viewOf(DecisionView, { ...row, at: new Date(at), endedAt: endedAt === null ? null : new Date(endedAt) });
}

export type NamedLine = Omit<LineRow, 'detail' | 'decision' | 'sortDay' | 'total'>;

export function lineView(named: NamedLine, detail: LineDetail, decision: DecisionRow | null): ReorderLineView {
  const { id, itemId, itemCode, itemName, unit, placeId, placeName, placeKind, computedAt } = named;
  const { purchase, alongWith, ifItWaits } = detail;
  return viewOf(ReorderLineView, {
    ...detail,
    id,
    itemId,
    itemCode,
    itemName,
    unit,
    placeId,
    placeName,
    placeKind,
    computedAt,
    need: viewOf(NeedView, detail.need),
    reasons: detail.reasons.map((reason) => viewOf(NeedReasonView, reason)),
    supplies: [...detail.supplies],
    purchase: purchase === null ? null : viewOf(PurchaseView, purchase),
    // Lines that were computed before these were known do not have them.
    alongWith: alongWith == null ? null : viewOf(PurchaseView, alongWith),
    canOrder: Boolean(detail.canOrder),
    transfers: detail.transfers.map((transfer) => viewOf(OfferedTransferView, transfer)),
    now: viewOf(ServiceView, detail.now),
    oneMore: viewOf(ServiceView, detail.oneMore),
    oneLess: viewOf(ServiceView, detail.oneLess),
    ifItWaits: ifItWaits === null ? null : viewOf(IfItWaitsView, ifItWaits),
    pace: viewOf(PaceView, detail.pace),
    decision: decision === null ? null : decisionView(decision),
  });
}
