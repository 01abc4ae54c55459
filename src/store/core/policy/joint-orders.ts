export interface JointItem {
  readonly perLine: number;
  readonly perPieceHeld: number;
  readonly need: number;
}

export interface JointPlan {
  /** Periods between deliveries; an item comes with every n-th */
  readonly every: number;
  readonly multiples: readonly number[];
  readonly quantities: readonly number[];
  readonly cost: number;
}

/**
 * Items of one supplier ordered together: the item with the least k/(h d) comes every time, others every n-th with n = sqrt(k/(h d) h1 d1/(K + k1)) rounded,
 *   T = sqrt(2 (K + sum k/n) / sum h d n).
 * Items that nothing is needed of have no place here; with none, null.
 *
 * Source: Silver 1976, after Snyder and Shen.
 */
export function jointOrders(shared: number, items: readonly JointItem[]): JointPlan | null {
  const weightOf = ({ perLine, perPieceHeld, need }: JointItem) => perLine / (perPieceHeld * need);
  const base = items.reduce<JointItem | null>((least, item) => (least === null || weightOf(item) < weightOf(least) ? item : least), null);
  if (base === null || items.some(({ need, perPieceHeld }) => need <= 0 || perPieceHeld <= 0)) return null;
  const scale = (base.perPieceHeld * base.need) / (shared + base.perLine);
  const multiples = items.map((item) => (item === base ? 1 : Math.max(1, Math.round(Math.sqrt(weightOf(item) * scale)))));
  const perDelivery = shared + items.reduce((sum, { perLine }, at) => sum + perLine / (multiples[at] ?? 1), 0);
  const held = items.reduce((sum, { perPieceHeld, need }, at) => sum + perPieceHeld * need * (multiples[at] ?? 1), 0);
  const every = Math.sqrt((2 * perDelivery) / held);
  return { every, multiples, quantities: items.map(({ need }, at) => need * every * (multiples[at] ?? 1)), cost: perDelivery / every + (held * every) / 2 };
}
