/** What one item came to over the months that are looked at. */
export interface Kept {
  readonly needed: number;
  readonly served: number;
  /** Mean of what lay there after receipts and at the end of each month */
  readonly stock: number;
}

/** Months from the review at the end of a month to the start of the month in which its order can be used. */
export const MONTHS_TO_USE = 4;

/**
 * Keeps one item: at the end of each month what is there, on order and owed is raised to that month's level, which arrives after three full months. It begins
 * with the first level and nothing on order; what cannot be served is owed; what is too much is not given back.
 *
 * @param levels  At the end of the month before the first one, and of each month after it whose order still arrives
 */
export function keepStock(needs: readonly number[], levels: ArrayLike<number>): Kept {
  const due = new Float64Array(needs.length + MONTHS_TO_USE + 1);
  let net = levels[0] ?? 0;
  let position = net;
  let [needed, served, stock] = [0, 0, 0];
  for (const [month, need] of needs.entries()) {
    net += due[month] ?? 0;
    stock += Math.max(0, net) / 2;
    served += Math.min(Math.max(0, net), need);
    needed += need;
    net -= need;
    position -= need;
    stock += Math.max(0, net) / 2;
    // This is the review at the end of the month; the order of month 0 is the beginning.
    const level = levels[month + 1];
    if (level !== undefined && level > position) {
      due[month + MONTHS_TO_USE] = level - position;
      position = level;
    }
  }
  return { needed, served, stock: stock / needs.length };
}
