/** A row as it is stored, with the load that it came from. */
export interface StoredRecord<Row> {
  readonly row: Row;
  readonly loadNo: number;
}

export interface IncomingRecord<Row> {
  readonly line: number;
  readonly row: Row;
}

export interface DifferingValue<Row> {
  readonly line: number;
  readonly field: keyof Row & string;
  readonly value: unknown;
  readonly stored: unknown;
}

export interface MergeOutcome<Row> {
  readonly toInsert: readonly Row[];
  readonly toUpdate: readonly Row[];
  /** What the updates put aside */
  readonly putAside: readonly StoredRecord<Row>[];
  readonly kept: number;
  readonly known: number;
  readonly differing: number;
  readonly replaced: number;
  readonly differences: readonly DifferingValue<Row>[];
}

export interface MergeRules<Row> {
  /** Same text: same record */
  readonly keyOf: (row: Row) => string;
  readonly compared: readonly (keyof Row & string)[];
  /** Not compared, and replaced together with those that are */
  readonly carried: readonly (keyof Row & string)[];
  readonly replaceDiffering: boolean;
  readonly loadNo: number;
}

/**
 * What a load does to the records that are stored: a row that is new is kept, one that says nothing else than what is stored is already there, and one that
 * says something else differs and replaces the stored one only when that was asked. Rows of one load are taken in their order, so that a key that comes
 * twice is treated as if it had come in two loads. A field that the row leaves empty says nothing.
 */
export function mergeRecords<Row extends object>(
  incoming: readonly IncomingRecord<Row>[],
  stored: readonly StoredRecord<Row>[],
  { keyOf, compared, carried, replaceDiffering, loadNo }: MergeRules<Row>,
): MergeOutcome<Row> {
  const standing = new Map<string, StoredRecord<Row>>(stored.map((record) => [keyOf(record.row), record]));
  const storedKeys = new Set(standing.keys());
  const updated = new Set<string>();
  const putAside: StoredRecord<Row>[] = [];
  const differences: DifferingValue<Row>[] = [];
  let [kept, known, differing, replaced] = [0, 0, 0, 0];
  for (const { line, row } of incoming) {
    const key = keyOf(row);
    const earlier = standing.get(key);
    if (earlier === undefined) {
      kept += 1;
      standing.set(key, { row, loadNo });
      continue;
    }
    const changed = compared.filter((field) => !isEmpty(row[field]) && !isSame(row[field], earlier.row[field]));
    if (changed.length === 0) {
      known += 1;
      continue;
    }
    differing += 1;
    for (const field of changed) differences.push({ line, field, value: row[field], stored: earlier.row[field] });
    if (!replaceDiffering) continue;
    replaced += 1;
    putAside.push(earlier);
    if (storedKeys.has(key)) updated.add(key);
    const news = Object.fromEntries([...changed, ...carried].map((field) => [field, row[field]])) as Partial<Row>;
    standing.set(key, { row: { ...earlier.row, ...news }, loadNo });
  }
  const toInsert = [...standing].filter(([key]) => !storedKeys.has(key)).map(([, { row }]) => row);
  const toUpdate = [...updated].flatMap((key) => standing.get(key)?.row ?? []);
  return { toInsert, toUpdate, putAside, kept, known, differing, replaced, differences };
}

const isEmpty = (value: unknown) => value === null || value === '';

function isSame(a: unknown, b: unknown): boolean {
  return a instanceof Date && b instanceof Date ? a.getTime() === b.getTime() : a === b;
}
