/** A line of the reorder list as it would be bought: due now, or falling due within sixty days. */
export interface JointLine {
  readonly id: string;
  readonly supplierId: string;
  readonly placeId: string;
  readonly isDue: boolean;
  /** It pays to order it with what is due */
  readonly canOrder: boolean;
  /** YYYY-MM-DD; null: not known */
  readonly orderBy: string | null;
  /** In the supplier's currency; null: no price is known */
  readonly value: number | null;
}

export interface JointOrder {
  readonly supplierId: string;
  readonly placeId: string;
  readonly due: readonly string[];
  /** Below their can-order point, the soonest first */
  readonly withIt: readonly string[];
  /** What falls due next, the soonest first, until the minimum order is reached */
  readonly toMinimum: readonly string[];
  /** Of what is due, and of all three together */
  readonly valueDue: number;
  readonly valueOfAll: number;
  /** What is missing to the minimum order even so; 0: nothing */
  readonly short: number;
  readonly withoutPrice: number;
}

const sum = (lines: readonly JointLine[]) => lines.reduce((total, { value }) => total + (value ?? 0), 0);
const idsOf = (lines: readonly JointLine[]) => lines.map(({ id }) => id);
const soonest = (a: JointLine, b: JointLine) => (a.orderBy ?? '9999').localeCompare(b.orderBy ?? '9999') || a.id.localeCompare(b.id);

/**
 * What is ordered together: for each supplier and place at which something is due, what it pays to order with it and, where that stays below the supplier's minimum
 * order, what falls due next. Nothing is ordered for the sake of company alone.
 *
 * Source: can-order policy as `canOrderDays`; the fill up to the minimum as `groupLines`.
 */
export function ordersTogether(lines: readonly JointLine[], minimumOf: (supplierId: string) => number | null): JointOrder[] {
  const groups = new Map<string, JointLine[]>();
  for (const line of lines) {
    const key = JSON.stringify([line.supplierId, line.placeId]);
    groups.set(key, [...(groups.get(key) ?? []), line]);
  }
  return [...groups.values()].flatMap((group) => {
    const due = group.filter(({ isDue }) => isDue).toSorted(soonest);
    const [first] = due;
    if (first === undefined) return [];
    const later = group.filter(({ isDue }) => !isDue).toSorted(soonest);
    const withIt = later.filter(({ canOrder }) => canOrder);
    const minimum = minimumOf(first.supplierId) ?? 0;
    const toMinimum: JointLine[] = [];
    let valueOfAll = sum(due) + sum(withIt);
    for (const line of later.filter(({ canOrder }) => !canOrder)) {
      if (valueOfAll >= minimum) break;
      toMinimum.push(line);
      valueOfAll += line.value ?? 0;
    }
    const { supplierId, placeId } = first;
    const withoutPrice = [...due, ...withIt, ...toMinimum].filter(({ value }) => value === null).length;
    const ids = { due: idsOf(due), withIt: idsOf(withIt), toMinimum: idsOf(toMinimum) };
    return [{ supplierId, placeId, ...ids, valueDue: sum(due), valueOfAll, short: Math.max(0, minimum - valueOfAll), withoutPrice }];
  });
}
