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
/** A second plan often comes soon after the first, and the thread that searched that one begins at once. */
const REST_MS = 60_000;

interface HowToSearch {
  readonly seed: number;
  readonly seconds: number;
  /** Where the search begins */
  readonly earlier: readonly EarlierPlace[];
}

export interface SearchToRun extends HowToSearch {
  readonly input: PlanInput;
}

/** Searches plans in a thread of its own, one at a time. The thread rests for a while before it ends. */
@Injectable()
export class PlanSearch implements OnModuleDestroy {
  private readonly log = new Logger(PlanSearch.name);
  private worker: Worker | null = null;
  private searching = false;
  private resting: NodeJS.Timeout | undefined;

  /** A search will be asked for soon: its thread begins meanwhile. */
  getReady(): void {
    if (this.searching) return;
    this.worker ??= this.begin();
    clearTimeout(this.resting);
    this.resting = setTimeout(() => void this.end(), REST_MS).unref();
  }

  /** @param stopped nobody waits for it any more: the thread ends at once, and the next search may begin */
  async run(input: PlanInput, how: HowToSearch, stopped?: AbortSignal): Promise<CheckedPlan> {
    if (stopped?.aborted === true) throw stoppedSearch();
    if (this.searching) throw new Conflict('A plan is being searched: wait until it is there, and ask again');
    const found = await this.answer({ input, ...how }, stopped);
    if (found.faults.length === 0) return found;
    this.log.error(`A plan was not shown: ${found.faults.join('; ')}`);
    throw new Conflict(`The plan that was found breaks a rule (${found.faults[0]}) and is not shown: ask again with another seed`);
  }

  onModuleDestroy(): Promise<void> {
    return this.end();
  }

  private async answer(message: SearchToRun, stopped: AbortSignal | undefined): Promise<CheckedPlan> {
    this.worker ??= this.begin();
    const { worker } = this;
    this.searching = true;
    clearTimeout(this.resting);
    worker.ref();
    try {
      const found = await answerOf(worker, message, stopped);
      this.searching = false;
      worker.unref();
      this.getReady();
      return found;
    } catch (error) {
      // It may still be at it.
      this.searching = false;
      await this.end();
      throw error;
    }
  }

  private begin(): Worker {
    const worker = new Worker(workerFile(), { resourceLimits: MEMORY });
    worker.once('exit', () => this.forget(worker)).once('error', () => this.forget(worker));
    worker.unref();
    return worker;
  }

  private async end(): Promise<void> {
    clearTimeout(this.resting);
    const { worker } = this;
    if (worker === null) return;
    this.forget(worker);
    await worker.terminate();
  }

  private forget(worker: Worker): void {
    if (this.worker === worker) this.worker = null;
  }
}

const stoppedSearch = () => new Conflict('The search was stopped: nothing was found and nothing is kept');

async function answerOf(worker: Worker, message: SearchToRun, stopped: AbortSignal | undefined): Promise<CheckedPlan> {
  const over = new AbortController();
  const { signal } = over;
  try {
    return await new Promise((done, failed) => {
      const fails = (error: Error) => failed(error);
      const exits = (code: number) => failed(new Error(`The search ended with ${code}`));
      stopped?.addEventListener('abort', () => failed(stoppedSearch()), { signal });
      const limit = setTimeout(() => failed(new Error('The search did not end')), message.seconds * 1000 + GRACE_MS);
      const answers = (answer: { result: CheckedPlan } | { fault: string }) => ('result' in answer ? done(answer.result) : failed(new Error(answer.fault)));
      worker.on('message', answers).on('error', fails).on('exit', exits);
      signal.addEventListener('abort', () => {
        clearTimeout(limit);
        worker.off('message', answers).off('error', fails).off('exit', exits);
      });
      worker.postMessage(message);
    });
  } finally {
    over.abort();
  }
}

/** Node loads the file of a thread by itself, past the tests' own compiler: from the sources it is the built file. */
function workerFile(): string {
  const beside = join(import.meta.dirname, 'plan-worker.js');
  return existsSync(beside) ? beside : join(import.meta.dirname, '../../../dist/src/visits/planning/plan-worker.js');
}
