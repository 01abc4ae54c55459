/** What somebody wants to buy, before it is put together with what else is bought there. Quantities in units of purchase. */
export interface WantedLine {
  readonly id: string;
  readonly supplierId: string;
  readonly placeId: string;
  readonly quantity: number;
  readonly pack: number;
  readonly minimumQuantity: number;
  /** Of one unit of purchase, in the supplier's currency; null: not known */
  readonly price: number | null;
  /** Days from today on which it must be ordered; 0 and below: now */
  readonly orderInDays: number;
  /** Comes along whenever something else is ordered there, though it is not due yet */
  readonly comesAlong?: boolean;
}

export interface SupplierTerms {
  readonly supplierId: string;
  /** In its currency; null: it takes any order */
  readonly minimumOrder: number | null;
}

export interface OrderLine {
  readonly id: string;
  readonly quantity: number;
  /** Why it is more than was wanted */
  readonly raisedTo: 'pack' | 'minimum' | null;
  /** Taken along before its day, with what is due or to reach the supplier's minimum */
  readonly early: boolean;
}

export interface GroupedOrder {
  readonly supplierId: string;
  readonly placeId: string;
  readonly lines: readonly OrderLine[];
  readonly value: number;
  /** What is missing to the supplier's minimum order; 0: nothing */
  readonly short: number;
  readonly withoutPrice: number;
}

/** How far ahead lines are looked for that fill up an order below the minimum. */
export const LOOK_AHEAD_DAYS = 60;

/**
 * Puts lines that are due into one order for each supplier and place, in whole packs and no less than is sold, with what comes along anyway. Where that stays
 * below the supplier's minimum order, lines that fall due next are taken along, the soonest first, until it is reached; what is missing after that is said.
 */
export function groupLines(wanted: readonly WantedLine[], terms: readonly SupplierTerms[]): GroupedOrder[] {
  const minimumOf = new Map(terms.map(({ supplierId, minimumOrder }) => [supplierId, minimumOrder ?? 0]));
  const groups = new Map<string, WantedLine[]>();
  for (const line of wanted) {
    const key = JSON.stringify([line.supplierId, line.placeId]);
    groups.set(key, [...(groups.get(key) ?? []), line]);
  }
  return [...groups.values()].flatMap((lines) => groupOf(lines, minimumOf.get(lines[0]?.supplierId ?? '') ?? 0));
}

function groupOf(lines: readonly WantedLine[], minimum: number): GroupedOrder[] {
  const inTime = lines.toSorted((a, b) => a.orderInDays - b.orderInDays || a.id.localeCompare(b.id));
  const [first] = inTime;
  if (first === undefined || first.orderInDays > 0) return [];
  const goes = ({ orderInDays, comesAlong = false }: WantedLine) => orderInDays <= 0 || comesAlong;
  const worth = (line: WantedLine) => roundToPacks(line).quantity * (line.price ?? 0);
  const taken = inTime.filter(goes);
  let value = taken.reduce((sum, line) => sum + worth(line), 0);
  for (const line of inTime.filter((one) => !goes(one))) {
    if (value >= minimum || line.orderInDays > LOOK_AHEAD_DAYS) break;
    taken.push(line);
    value += worth(line);
  }
  const { supplierId, placeId } = first;
  return [
    {
      supplierId,
      placeId,
      lines: taken.map((line) => ({ id: line.id, ...roundToPacks(line), early: line.orderInDays > 0 })),
      value,
      short: Math.max(0, minimum - value),
      withoutPrice: taken.filter(({ price }) => price === null).length,
    },
  ];
}

/**
 * A quantity raised to what is sold: the minimum, then whole packs. Numbers that differ from a whole pack only by rounding are one.
 *
 * @example roundToPacks({ quantity: 7, pack: 4, minimumQuantity: 0 }) // => {"quantity":8,"raisedTo":"pack"}
 * @example roundToPacks({ quantity: 1, pack: 4, minimumQuantity: 10 }) // => {"quantity":12,"raisedTo":"minimum"}
 */
export function roundToPacks({
  quantity,
  pack,
  minimumQuantity,
}: Pick<WantedLine, 'quantity' | 'pack' | 'minimumQuantity'>): Pick<OrderLine, 'quantity' | 'raisedTo'> {
  const least = Math.max(quantity, minimumQuantity);
  const raised = Math.max(1, Math.ceil(least / pack - 1e-9)) * pack;
  const rounded = Number(raised.toFixed(6));
  if (rounded <= quantity) return { quantity: rounded, raisedTo: null };
  return { quantity: rounded, raisedTo: minimumQuantity > quantity ? 'minimum' : 'pack' };
}
