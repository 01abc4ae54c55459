import { Worker } from 'node:worker_threads';

export interface PoolOptions {
  /** JavaScript that answers each message with `{ result }` or `{ fault }` */
  readonly file: string;
  readonly size: number;
  /** So many may wait while all workers are busy; the next is refused */
  readonly waiting: number;
  readonly limitMs: number;
}

/** Why nothing came back. */
export class PoolFault extends Error {
  constructor(
    readonly kind: 'full' | 'too long' | 'ended',
    message: string,
  ) {
    super(message);
  }
}

interface Task {
  readonly message: unknown;
  readonly done: (result: unknown) => void;
  readonly failed: (error: PoolFault) => void;
}

const IDLE_MS = 5 * 60_000;
/** Far more than a report takes; a worker that wants more is ended before the service is short. */
const MEMORY = { maxOldGenerationSizeMb: 512 };

/**
 * A few threads that answer one message at a time. One that does not answer in time, or ends, is replaced; one that has nothing to do for some minutes is ended,
 * and with it goes its memory.
 */
export class WorkerPool {
  private readonly idle: { readonly worker: Worker; readonly timer: NodeJS.Timeout }[] = [];
  private readonly all = new Set<Worker>();
  private readonly queue: Task[] = [];

  constructor(private readonly options: PoolOptions) {}

  run(message: unknown): Promise<unknown> {
    if (this.queue.length >= this.options.waiting) return Promise.reject(new PoolFault('full', `${this.queue.length} are waiting`));
    return new Promise((done, failed) => {
      this.queue.push({ message, done, failed });
      this.next();
    });
  }

  async close(): Promise<void> {
    for (const task of this.queue.splice(0)) task.failed(new PoolFault('ended', 'The service is being stopped'));
    await Promise.all([...this.all].map((worker) => worker.terminate()));
  }

  private next(): void {
    if (this.queue.length === 0 || (this.idle.length === 0 && this.all.size >= this.options.size)) return;
    const worker = this.takeWorker();
    const task = this.queue.shift();
    if (task !== undefined) this.give(worker, task);
  }

  private takeWorker(): Worker {
    const known = this.idle.pop();
    if (known !== undefined) {
      clearTimeout(known.timer);
      return known.worker;
    }
    const worker = new Worker(this.options.file, { resourceLimits: MEMORY });
    worker.unref(); // the service ends without waiting for it
    this.all.add(worker);
    worker.once('exit', () => {
      this.all.delete(worker);
      const at = this.idle.findIndex((each) => each.worker === worker);
      if (at >= 0) clearTimeout(this.idle.splice(at, 1)[0]?.timer);
      this.next();
    });
    worker.on('error', () => {}); // what was asked of it is told by the task's own listener
    return worker;
  }

  private give(worker: Worker, task: Task): void {
    const fail = (fault: PoolFault): void => {
      stop();
      void worker.terminate();
      task.failed(fault);
    };
    const onError = (error: Error) => fail(new PoolFault('ended', error.message));
    const onExit = (code: number) => fail(new PoolFault('ended', `The worker ended with ${code}`));
    const onMessage = (answer: { result?: unknown; fault?: string }): void => {
      if (answer.fault !== undefined) {
        fail(new PoolFault('ended', answer.fault));
        return;
      }
      stop();
      this.idle.push({ worker, timer: setTimeout(() => void worker.terminate(), IDLE_MS).unref() });
      task.done(answer.result);
      this.next();
    };
    const limit = setTimeout(() => fail(new PoolFault('too long', `No answer within ${this.options.limitMs} ms`)), this.options.limitMs);
    const stop = (): void => {
      clearTimeout(limit);
      worker.off('error', onError).off('exit', onExit).off('message', onMessage);
    };
    worker.once('error', onError).once('exit', onExit).once('message', onMessage);
    worker.postMessage(task.message);
  }
}
