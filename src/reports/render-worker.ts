import { parentPort } from 'node:worker_threads';
import type { ReportDocument } from './core/document.js';
import { renderReport } from './pdf/render-report.js';

/** The thread that draws reports, so that setting thousands of lines does not keep other requests waiting. */
parentPort?.on('message', (report: ReportDocument) => {
  void renderReport(report).then(
    (pdf) => {
      const result = Uint8Array.from(pdf); // small buffers share their memory, which cannot be handed over
      parentPort?.postMessage({ result }, [result.buffer]);
    },
    (error: unknown) => parentPort?.postMessage({ fault: error instanceof Error ? (error.stack ?? error.message) : String(error) }),
  );
});
