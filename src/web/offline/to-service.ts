import { problemOf } from '../api/problem.js';
import type { ReportAnswer } from './parcel.js';
import type { Reply, Transport } from './send-photos.js';

const ANSWER_MS = 20_000;
/** A photograph of some hundred kilobytes over a thin line */
const PHOTO_MS = 90_000;
/** Faults that pass: too slow, too early, too many, and the service itself */
const PASSING = [408, 425, 429];

async function ask<T>(method: string, path: string, read: (answer: Response) => Promise<T>, body?: BodyInit, type?: string): Promise<Reply<T>> {
  try {
    const answer = await fetch(path, {
      method,
      credentials: 'same-origin',
      signal: AbortSignal.timeout(type?.startsWith('image/') ? PHOTO_MS : ANSWER_MS),
      ...(body === undefined ? {} : { body }),
      ...(type === undefined ? {} : { headers: { 'content-type': type } }),
    });
    if (answer.ok) return { kind: 'stored', answer: await read(answer) };
    if (answer.status === 401) return { kind: 'signed out' };
    if (answer.status >= 500 || PASSING.includes(answer.status)) return { kind: 'no answer' };
    const problem = problemOf(await answer.json().catch(() => ({ status: answer.status })));
    return { kind: 'refused', refusal: { title: problem.title, errors: problem.errors } };
  } catch {
    return { kind: 'no answer' };
  }
}

/** The calls that the outbox makes; each has an end to its patience, as a thin signal may swallow an answer. */
export const toService: Transport = {
  who: async () => ask('GET', '/api/session', async (answer) => ((await answer.json()) as { id: string }).id),
  photo: async ({ id, place, name, mediaType }, content, jobId) => {
    const about = new URLSearchParams({ ofKind: 'job', ofId: jobId, place, name });
    return ask('PUT', `/api/attachments/${id}?${about}`, async () => null, content, mediaType);
  },
  report: async ({ id, jobId, report, corrects }) => {
    const path = `/api/jobs/${jobId}/reports`;
    const read = async (answer: Response) => (await answer.json()) as ReportAnswer;
    return corrects
      ? ask('PUT', `${path}/${id}`, read, JSON.stringify(report), 'application/json')
      : ask('POST', path, read, JSON.stringify(report), 'application/json');
  },
};
