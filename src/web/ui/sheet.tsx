import type { ReactNode } from 'react';

export interface Column<Row> {
  readonly name: string;
  readonly cell: (row: Row) => ReactNode;
  /** Right-aligned, digits under digits */
  readonly numeric?: true;
  /** Stays on one line */
  readonly short?: true;
  /** Sentences: wraps, and takes the whole width where records are stacked */
  readonly wide?: true;
}

interface SheetProps<Row> {
  readonly caption: string;
  readonly columns: readonly Column<Row>[];
  readonly rows: readonly Row[];
  readonly keyOf: (row: Row) => string;
  /** Tables of numbers scroll sideways on a narrow screen; records are stacked, each value under its name */
  readonly scrolls?: true;
}

/** A table whose first column heads each row. */
export function Sheet<Row>({ caption, columns, rows, keyOf, scrolls }: SheetProps<Row>) {
  const table = (
    <table className="sheet">
      <caption className="unseen">{caption}</caption>
      <thead>
        <tr>
          {columns.map((column) => (
            <th key={column.name} scope="col" className={classOf(column)}>
              {column.name}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {rows.map((row) => (
          <tr key={keyOf(row)}>
            {columns.map((column, at) => {
              const Cell = at === 0 ? 'th' : 'td';
              return (
                <Cell key={column.name} scope={at === 0 ? 'row' : undefined} className={classOf(column)}>
                  <span className="cell-name">{column.name}</span>
                  {column.cell(row)}
                </Cell>
              );
            })}
          </tr>
        ))}
      </tbody>
    </table>
  );
  return (
    // A box that scrolls must be reachable by keyboard.
    // biome-ignore lint/a11y/noNoninteractiveTabindex: scrolling is the interaction
    <section className={scrolls ? 'sheet-hold' : 'sheet-hold sheet-stacks'} tabIndex={0} aria-label={caption}>
      {table}
    </section>
  );
}

const classOf = ({ numeric, short, wide }: Column<never>) => (numeric ? 'n' : short ? 'short' : wide ? 'wide' : undefined);
