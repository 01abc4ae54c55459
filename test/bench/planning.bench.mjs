/**
 * Plans over HTTP, from what is stored to what is stored: the first plan of 500 pieces of work for 12 technicians in 4 weeks and of 2,000 for 30 in 8 weeks, and planning the first anew after
 * a breakdown with a week of promises and one second to search. Medians of five.
 */
import { randomUUID } from 'node:crypto';
import { breakSomething, fillUp, LARGE, SMALL, seedVisits } from './seed-visits.mjs';

export const name = 'planning';
/** Brings its own work. */
export const seed = seedVisits;
const RUNS = 5;
const PROMISED = 100;

export async function run({ baseUrl, databaseUrl, cookie }, print) {
  const post = async (path, body) => {
    const headers = { cookie, origin: baseUrl, 'content-type': 'application/json', 'idempotency-key': randomUUID() };
    const answer = await fetch(`${baseUrl}${path}`, { method: 'POST', headers, body: JSON.stringify(body) });
    if (answer.status >= 300) throw new Error(`${path}: ${answer.status} ${await answer.text()}`);
    return answer.json();
  };
  const timed = async (work) => {
    const startedAt = performance.now();
    const answer = await work();
    return { answer, ms: Math.round(performance.now() - startedAt) };
  };
  const medianOf = async (work) => {
    await work();
    const runs = [];
    for (let at = 0; at < RUNS; at += 1) runs.push(await timed(work));
    runs.sort((one, two) => one.ms - two.ms);
    return { ...runs[(RUNS - 1) / 2], slowestMs: runs.at(-1).ms };
  };
  const figures = ({ answer, ms, slowestMs }) => ({ medianMs: ms, slowestMs, lines: answer.lines.length, leftOut: answer.notInPlan.length });
  const first = (days) => () => post('/api/plans', { days, seconds: 0 });

  print({ bench: 'planning', what: 'first plan', ...SMALL, ...figures(await medianOf(first(SMALL.weeks * 7))) });
  const { answer: plan } = await timed(first(SMALL.weeks * 7));
  const lineIds = plan.lines.slice(0, PROMISED).map(({ id }) => id);
  const accepted = await timed(() => post(`/api/plans/${plan.id}/accept`, { lineIds }));
  print({ bench: 'planning', what: 'accept', visits: lineIds.length, ms: accepted.ms });
  for (const { visitId } of accepted.answer.lines.slice(0, PROMISED)) await post(`/api/visits/${visitId}/promise`, {});
  const brokenId = await breakSomething(databaseUrl);
  const anew = await timed(() => post(`/api/plans/${plan.id}/replan`, { seconds: 1, urgentIds: [brokenId] }));
  const { changes } = anew.answer;
  const moved = changes.filter(({ kind, what }) => kind === 'visit' && what !== 'unchanged').length;
  const placed = changes.some(({ id, what }) => id === brokenId && what === 'new');
  print({ bench: 'planning', what: 'plan anew after a breakdown', ms: anew.ms, promised: PROMISED, promisesMoved: moved, breakdownPlaced: placed });

  await fillUp(databaseUrl, LARGE);
  print({ bench: 'planning', what: 'first plan', ...LARGE, ...figures(await medianOf(first(LARGE.weeks * 7))) });
}
