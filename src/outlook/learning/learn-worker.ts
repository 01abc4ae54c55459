import { parentPort } from 'node:worker_threads';
import { LESSONS, type Lesson } from './lessons.js';

/** The thread that learns what a fleet taught, so that a second of it does not keep requests waiting. */
parentPort?.on('message', ({ of, asked }: { of: Lesson; asked: unknown }) => {
  try {
    parentPort?.postMessage({ result: (LESSONS[of] as (asked: unknown) => unknown)(asked) });
  } catch (error) {
    parentPort?.postMessage({ fault: error instanceof Error ? (error.stack ?? error.message) : String(error) });
  }
});
