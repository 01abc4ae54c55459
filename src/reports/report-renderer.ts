import { existsSync } from 'node:fs';
import { availableParallelism } from 'node:os';
import { join } from 'node:path';
import { Injectable, Logger, type OnModuleDestroy } from '@nestjs/common';
import type { ReportDocument } from './core/document.js';
import { ReportNotMade, ReportsBusy } from './reports.errors.js';
import { PoolFault, WorkerPool } from './worker-pool.js';

const LIMIT_MS = 30_000;
const WAITING = 8;

/** Draws reports in threads of their own. */
@Injectable()
export class ReportRenderer implements OnModuleDestroy {
  private readonly log = new Logger(ReportRenderer.name);
  private readonly pool = new WorkerPool({ file: workerFile(), size: availableParallelism() > 2 ? 2 : 1, waiting: WAITING, limitMs: LIMIT_MS });

  async render(report: ReportDocument): Promise<Buffer> {
    try {
      return Buffer.from((await this.pool.run(report)) as Uint8Array);
    } catch (error) {
      if (!(error instanceof PoolFault)) throw error;
      if (error.kind === 'full') throw new ReportsBusy();
      this.log.error(`"${report.title}": ${error.message}`);
      throw new ReportNotMade(error.kind === 'too long');
    }
  }

  onModuleDestroy(): Promise<void> {
    return this.pool.close();
  }
}

/** Node loads the file of a thread by itself, past the tests' own compiler: from the sources it is the built file, which `npm test` has made just before. */
function workerFile(): string {
  const beside = join(import.meta.dirname, 'render-worker.js');
  return existsSync(beside) ? beside : join(import.meta.dirname, '../../dist/src/reports/render-worker.js');
}
