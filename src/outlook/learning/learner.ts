import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { Worker } from 'node:worker_threads';
import { Injectable, type OnModuleDestroy } from '@nestjs/common';
import type { Asked, Lesson, Taught } from './lessons.js';

const LIMIT_MS = 120_000;
const MEMORY = { maxOldGenerationSizeMb: 512 };

/** Learns in a thread of its own, one lesson after the other; the thread ends with the lesson, since hours go by to the next. */
@Injectable()
export class Learner implements OnModuleDestroy {
  private last: Promise<unknown> = Promise.resolve();
  private worker: Worker | null = null;
  private isOver = false;

  learn<Of extends Lesson>(of: Of, asked: Asked<Of>): Promise<Taught<Of>> {
    const lesson = this.last.then(() => this.now(of, asked));
    this.last = lesson.catch(() => {}); // who asked is told; the next lesson is another one
    return lesson;
  }

  async onModuleDestroy(): Promise<void> {
    this.isOver = true;
    await this.worker?.terminate();
  }

  private async now<Of extends Lesson>(of: Of, asked: Asked<Of>): Promise<Taught<Of>> {
    if (this.isOver) throw new Error('The service is being stopped');
    const worker = new Worker(workerFile(), { resourceLimits: MEMORY });
    worker.unref(); // the service ends without waiting for it
    this.worker = worker;
    let limit: NodeJS.Timeout | undefined;
    try {
      return await new Promise((done, failed) => {
        limit = setTimeout(() => failed(new Error(`What the fleet taught of ${of} was not learned within ${LIMIT_MS / 1000} s`)), LIMIT_MS);
        worker.once('message', (answer: { result: Taught<Of> } | { fault: string }) => {
          if ('result' in answer) done(answer.result);
          else failed(new Error(answer.fault));
        });
        worker.once('error', failed);
        worker.once('exit', (code) => failed(new Error(`The thread that learns ended with ${code}`)));
        worker.postMessage({ of, asked });
      });
    } finally {
      clearTimeout(limit);
      this.worker = null;
      await worker.terminate();
    }
  }
}

/** Node loads the file of a thread by itself, past the tests' own compiler: from the sources it is the built file. */
function workerFile(): string {
  const beside = join(import.meta.dirname, 'learn-worker.js');
  return existsSync(beside) ? beside : join(import.meta.dirname, '../../../dist/src/outlook/learning/learn-worker.js');
}
