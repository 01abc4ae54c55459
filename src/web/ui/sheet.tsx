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

export interface RowGroup<Row> {
  readonly key: string;
  readonly head: ReactNode;
  readonly rows: readonly Row[];
}

interface TableProps<Row> {
  readonly caption: string;
  readonly columns: readonly Column<Row>[];
  readonly keyOf: (row: Row) => string;
  /** Tables of numbers scroll sideways on a narrow screen; records are stacked, each value under its name */
  readonly scrolls?: true;
}

/** A table whose first column heads each row. */
export function Sheet<Row>({ rows, ...table }: TableProps<Row> & { rows: readonly Row[] }) {
  return (
    <Hold {...table}>
      <tbody>
        <Rows {...table} rows={rows} />
      </tbody>
    </Hold>
  );
}

/** A table whose rows stand in groups, each under a head of its own. */
export function GroupedSheet<Row>({ groups, ...table }: TableProps<Row> & { groups: readonly RowGroup<Row>[] }) {
  return (
    <Hold {...table}>
      {groups.map(({ key, head, rows }) => (
        <tbody key={key}>
          <tr className={rows.length > 0 ? 'group-head has-rows' : 'group-head'}>
            <th scope="rowgroup" colSpan={table.columns.length}>
              {head}
            </th>
          </tr>
          <Rows {...table} rows={rows} />
        </tbody>
      ))}
    </Hold>
  );
}

function Hold<Row>({ caption, columns, scrolls, children }: TableProps<Row> & { children: ReactNode }) {
  return (
    // A box that scrolls must be reachable by keyboard.
    // biome-ignore lint/a11y/noNoninteractiveTabindex: scrolling is the interaction
    <section className={scrolls ? 'sheet-hold' : 'sheet-hold sheet-stacks'} tabIndex={0} aria-label={caption}>
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
        {children}
      </table>
    </section>
  );
}

function Rows<Row>({ columns, rows, keyOf }: Pick<TableProps<Row>, 'columns' | 'keyOf'> & { rows: readonly Row[] }) {
  return rows.map((row) => (
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
  ));
}

const classOf = ({ numeric, short, wide }: Column<never>) => (numeric ? 'n' : short ? 'short' : wide ? 'wide' : undefined);
