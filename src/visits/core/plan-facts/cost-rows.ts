/** Puts what days cost into the next row. */
export type CostRow = (costs: readonly number[]) => Float64Array;

/** Rows of one table that the thread that searches reads where it lies: there are thousands, and a copy of each takes longer than its costs took to reckon. */
export function costRows(count: number, days: number): CostRow {
  const table = new SharedArrayBuffer(count * days * Float64Array.BYTES_PER_ELEMENT);
  let next = 0;
  return (costs) => {
    const row = new Float64Array(table, next * days * Float64Array.BYTES_PER_ELEMENT, days);
    next += 1;
    row.set(costs);
    return row;
  };
}
