import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { Worker } from 'node:worker_threads';
import { Injectable, Logger, type OnModuleDestroy } from '@nestjs/common';
import { Conflict } from '../../app/index.js';
import type { CheckedPlan } from '../core/plan-facts/make-plan.js';
import type { EarlierPlace } from '../core/planner/begin-from.js';
import type { PlanInput } from '../core/planner/plan-input.js';

/** A search is over by its own clock; a thread that says nothing for so long beyond it has a fault. */
const GRACE_MS = 30_000;
const MEMORY = { maxOldGenerationSizeMb: 1024 };

interface HowToSearch {
  readonly seed: number;
  readonly seconds: number;
  /** Where the search begins */
  readonly earlier: readonly EarlierPlace[];
}

export interface SearchToRun extends HowToSearch {
  readonly input: PlanInput;
}

/** Searches plans in a thread of its own, one at a time. */
@Injectable()
export class PlanSearch implements OnModuleDestroy {
  private readonly log = new Logger(PlanSearch.name);
  private worker: Worker | null = null;

  /** @param stopped nobody waits for it any more: the thread ends at once, and the next search may begin */
  async run(input: PlanInput, how: HowToSearch, stopped?: AbortSignal): Promise<CheckedPlan> {
    if (stopped?.aborted === true) throw stoppedSearch();
    if (this.worker !== null) throw new Conflict('A plan is being searched: wait until it is there, and ask again');
    const worker = new Worker(workerFile(), { resourceLimits: MEMORY });
    this.worker = worker;
    try {
      const found = await answerOf(worker, { input, ...how }, stopped);
      if (found.faults.length === 0) return found;
      this.log.error(`A plan was not shown: ${found.faults.join('; ')}`);
      throw new Conflict(`The plan that was found breaks a rule (${found.faults[0]}) and is not shown: ask again with another seed`);
    } finally {
      this.worker = null;
      await worker.terminate();
    }
  }

  async onModuleDestroy(): Promise<void> {
    await this.worker?.terminate();
  }
}

const stoppedSearch = () => new Conflict('The search was stopped: nothing was found and nothing is kept');

async function answerOf(worker: Worker, message: SearchToRun, stopped: AbortSignal | undefined): Promise<CheckedPlan> {
  let limit: NodeJS.Timeout | undefined;
  let stop = () => {};
  try {
    return await new Promise((done, failed) => {
      stop = () => failed(stoppedSearch());
      stopped?.addEventListener('abort', stop);
      limit = setTimeout(() => failed(new Error('The search did not end')), message.seconds * 1000 + GRACE_MS);
      worker.once('message', (answer: { result: CheckedPlan } | { fault: string }) => {
        if ('result' in answer) done(answer.result);
        else failed(new Error(answer.fault));
      });
      worker.once('error', failed);
      worker.once('exit', (code) => failed(new Error(`The search ended with ${code}`)));
      worker.postMessage(message);
    });
  } finally {
    clearTimeout(limit);
    stopped?.removeEventListener('abort', stop);
  }
}

/** Node loads the file of a thread by itself, past the tests' own compiler: from the sources it is the built file. */
function workerFile(): string {
  const beside = join(import.meta.dirname, 'plan-worker.js');
  return existsSync(beside) ? beside : join(import.meta.dirname, '../../../dist/src/visits/planning/plan-worker.js');
}
