import type {} from '@fastify/multipart';
import { parse } from 'csv-parse';
import { stringify } from 'csv-stringify/sync';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { InvalidRequest } from '../../app/index.js';
import type { CsvColumn } from '../core/csv/columns.js';
import { type ReadRow, type RowProblem, readHead, readRow } from '../core/csv/read-table.js';

const MOST_MB = 30;
const MOST_ROWS = 200_000;
/** What OpenAPI says of a form with one file. */
export const FILE_BODY = { schema: { type: 'object', required: ['file'], properties: { file: { type: 'string', format: 'binary' } } } };

/** The text of the one file of a form. */
export async function textOfForm(request: FastifyRequest): Promise<string> {
  const noFile = (why: string) => new InvalidRequest(why, [{ pointer: '#/file', message: 'there is no file: choose the table, saved as CSV' }]);
  if (!request.isMultipart()) throw noFile('Send the table as multipart/form-data');
  const part = await request.file().catch((error: Error) => {
    throw noFile(`The form cannot be read: ${error.message}`);
  });
  if (part === undefined) throw noFile('The form has no file');
  const chunks: Buffer[] = [];
  let bytes = 0;
  for await (const chunk of part.file as AsyncIterable<Buffer>) {
    bytes += chunk.length;
    if (bytes <= MOST_MB * 1024 ** 2) chunks.push(chunk); // what is too much is read and let go: a sender hears the answer only then
  }
  if (bytes > MOST_MB * 1024 ** 2) throw new InvalidRequest(`The table is larger than ${MOST_MB} MB. Send it in parts, each with the line of names above it`);
  return Buffer.concat(chunks).toString('utf8');
}

export interface ReadTable {
  /** Rows without a problem */
  readonly rows: readonly ReadRow[];
  readonly problems: readonly RowProblem[];
  /** All of the file below the names */
  readonly count: number;
}

/** Reads a table row by row. Cells are parted by commas, semicolons or tabs: by what the line of names has most of. */
export async function readTable(text: string, known: readonly CsvColumn[]): Promise<ReadTable> {
  const parser = parse({ delimiter: markOf(text), bom: true, info: true, relax_column_count: true, relax_quotes: true, skip_empty_lines: true });
  parser.end(text);
  const rows: ReadRow[] = [];
  const problems: RowProblem[] = [];
  let columns: readonly (CsvColumn | null)[] | undefined;
  let count = 0;
  try {
    for await (const { record, info } of parser as AsyncIterable<{ record: string[]; info: { lines: number } }>) {
      if (columns === undefined) {
        const head = readHead(record, known);
        if (head.kind === 'unreadable') throw new InvalidRequest(head.message);
        columns = head.columns;
        continue;
      }
      count += 1;
      if (count > MOST_ROWS) throw new InvalidRequest(`The table has more than ${MOST_ROWS} rows. Send it in parts, each with the line of names above it`);
      const read = readRow(record, columns, info.lines - linesWithin(record));
      if (read.kind === 'row') rows.push(read.row);
      else problems.push(...read.problems);
    }
  } catch (error) {
    if (error instanceof InvalidRequest) throw error;
    throw new InvalidRequest(`The table cannot be read: ${(error as Error).message}. A quote that begins a text must also end it`);
  }
  if (columns === undefined) throw new InvalidRequest('The table is empty: its first line must name the columns');
  return { rows, problems, count };
}

const linesWithin = (cells: readonly string[]) => cells.reduce((sum, cell) => sum + cell.split('\n').length - 1, 0);

function markOf(text: string): string {
  const names = text.slice(0, Math.max(0, text.indexOf('\n'))) || text;
  const count = (mark: string) => names.split(mark).length;
  return [';', '\t'].reduce((best, mark) => (count(mark) > count(best) ? mark : best), ',');
}

export type TableRow = Readonly<Record<string, string | number | null>>;

/** A table as CSV (RFC 4180): the columns in their order, and no cell that a spreadsheet would take for a formula. */
export function sendTable(reply: FastifyReply, name: string, columns: readonly string[], rows: readonly TableRow[]): void {
  const text = stringify(
    rows.map((row) => columns.map((column) => row[column] ?? '')),
    { header: true, columns: [...columns], escape_formulas: true, record_delimiter: 'windows' },
  );
  void reply.header('content-type', 'text/csv; charset=utf-8').header('content-disposition', `attachment; filename="${name}.csv"`).send(text);
}
