import { parentPort } from 'node:worker_threads';
import { makePlan } from '../core/plan-facts/make-plan.js';
import type { SearchToRun } from './plan-search.js';

/** The thread that searches, so that other requests need not wait. */
parentPort?.on('message', ({ input, seed, seconds, earlier }: SearchToRun) => {
  const from = performance.now();
  try {
    parentPort?.postMessage({ result: makePlan(input, seed, () => (seconds === 0 ? 1 : (performance.now() - from) / (seconds * 1000)), earlier) });
  } catch (error) {
    parentPort?.postMessage({ fault: error instanceof Error ? (error.stack ?? error.message) : String(error) });
  }
});
