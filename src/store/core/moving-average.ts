/** What is held of an item, and what one unit of it stands at. */
export interface Held {
  /** In millionths of the unit */
  readonly quantity: bigint;
  /** In millionths of the currency; null: nothing is known yet */
  readonly average: bigint | null;
}

export interface Paid {
  /** In millionths of the unit: below zero where a receipt is taken back */
  readonly quantity: bigint;
  /** In millionths of the currency */
  readonly unitCost: bigint;
}

/**
 * The moving average after a receipt: (held × average + received × cost) / (held + received). What was held before any cost was known is taken to have cost the same.
 * Where a receipt is taken back that would leave nothing, or a value below zero, the average stays. Rounded half up to a millionth.
 *
 * Source: moving average cost (common practice).
 *
 * @example String(averageAfter({ quantity: 10000000n, average: 2000000n }, { quantity: 10000000n, unitCost: 4000000n })) // => "3000000"
 * @example String(averageAfter({ quantity: 10000000n, average: null }, { quantity: 1000000n, unitCost: 4000000n })) // => "4000000"
 */
export function averageAfter({ quantity: held, average }: Held, { quantity, unitCost }: Paid): bigint {
  if (average === null) return unitCost;
  const left = held + quantity;
  const value = held * average + quantity * unitCost;
  if (left <= 0n || value < 0n) return average;
  return (value * 2n + left) / (left * 2n);
}
