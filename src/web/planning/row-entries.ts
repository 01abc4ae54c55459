type Entries = Readonly<Record<string, string>>;
type Row<Field extends string> = Readonly<Record<Field, string>>;

/** The field of one row of a list, named as the service points to it. */
export const rowField = (list: string, at: number, field: string): string => `${list}/${at}/${field}`;

/** The rows of a list that a flat form holds. */
export function rowsOf<Field extends string>(entries: Entries, list: string, fields: readonly Field[]): Row<Field>[] {
  const rows: Row<Field>[] = [];
  while (fields.some((field) => rowField(list, rows.length, field) in entries)) {
    const at = rows.length;
    rows.push(Object.fromEntries(fields.map((field) => [field, entries[rowField(list, at, field)] ?? ''])) as Row<Field>);
  }
  return rows;
}

/** The form with these rows in the list, whatever it held before; all that is not of the list stays. */
export function withRows(entries: Entries, list: string, rows: readonly Readonly<Record<string, string>>[]): Record<string, string> {
  const others = Object.entries(entries).filter(([name]) => !name.startsWith(`${list}/`));
  return Object.fromEntries([...others, ...rows.flatMap((row, at) => Object.entries(row).map(([field, value]) => [rowField(list, at, field), value]))]);
}

/** The field of a form that a pointer of the service means: one of the items of a field that holds several is that field. */
export const fieldAtPointer = (pointer: string): string => pointer.replace(/^#\//, '').replace(/\/\d+$/, '');
