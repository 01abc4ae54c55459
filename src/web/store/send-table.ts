import type { Schemas } from '../api/client.js';
import { type Problem, problemOf } from '../api/problem.js';

export type TableKind = 'items' | 'suppliers' | 'offers' | 'bar-codes' | 'stock-settings';
export type TableAnswer = { readonly report: Schemas['ImportReportView'] } | { readonly refusal: Problem };

/** Sends a table as a form: looked through only, or taken, with or without the rows that are wrong. */
export async function sendTable(kind: TableKind, file: File, how: 'look' | 'take' | 'take good'): Promise<TableAnswer> {
  const query = new URLSearchParams(how === 'look' ? { dryRun: 'true' } : how === 'take good' ? { goodOnly: 'true' } : {});
  const body = new FormData();
  body.set('file', file);
  try {
    const response = await fetch(`/api/${kind}/table?${query}`, { method: 'POST', body, credentials: 'same-origin' });
    const answer: unknown = await response.json();
    return response.ok ? { report: answer as Schemas['ImportReportView'] } : { refusal: problemOf(answer) };
  } catch (error) {
    return { refusal: problemOf(error) };
  }
}
