import type { Schemas } from '../api/client.js';
import { type Problem, problemOf } from '../api/problem.js';

interface FileLoad {
  readonly skidId: string;
  readonly kind: string;
  readonly profileId: string;
  readonly file: File;
  readonly dryRun: boolean;
  readonly replaceDiffering: boolean;
}

type Answer = { readonly report: Schemas['LoadReportView'] } | { readonly refusal: Problem };

/** Sends a log as a form, since it may be larger than what fits into memory: the browser reads it from the disk as it goes. */
export async function sendFile({ skidId, kind, profileId, file, dryRun, replaceDiffering }: FileLoad): Promise<Answer> {
  const query = new URLSearchParams({ kind, ...(profileId === '' ? {} : { profileId }), ...(replaceDiffering ? { replaceDiffering: 'true' } : {}) });
  const body = new FormData();
  body.set('file', file);
  try {
    const response = await fetch(`/api/skids/${skidId}/loads${dryRun ? '/dry-run' : ''}?${query}`, { method: 'POST', body, credentials: 'same-origin' });
    const answer: unknown = await response.json();
    return response.ok ? { report: answer as Schemas['LoadReportView'] } : { refusal: problemOf(answer) };
  } catch (error) {
    return { refusal: problemOf(error) };
  }
}
