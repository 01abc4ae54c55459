import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

const TOOLS = ['pdftotext', 'pdfinfo'];

/** Whether a PDF can be read back here; where it cannot, a spec says so and skips. */
export function haveReaders(): boolean {
  const missing = TOOLS.filter((tool) => spawnSync(tool, ['-v']).error !== undefined);
  if (missing.length > 0) console.info(`not installed, so no PDF is read back: ${missing.join(', ')} (package poppler-utils)`);
  return missing.length === 0;
}

export interface ReadPdf {
  /** Line by line as people read it, spaces of any width as one */
  readonly text: string;
  /** Elements and what they hold, as those hear it who do not see */
  readonly structure: string;
  readonly info: string;
}

export function readPdf(content: Buffer): ReadPdf {
  const folder = mkdtempSync(join(tmpdir(), 'skidkeep-pdf-'));
  const file = join(folder, 'report.pdf');
  const run = (tool: string, ...args: string[]) => spawnSync(tool, args, { encoding: 'utf8', maxBuffer: 2 ** 26 }).stdout;
  try {
    writeFileSync(file, content);
    return {
      text: run('pdftotext', '-layout', file, '-').replaceAll(/\s+/g, ' '),
      structure: run('pdfinfo', '-struct-text', file),
      info: run('pdfinfo', file),
    };
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** How often an element of the kind stands in the structure. */
export const countOf = ({ structure }: ReadPdf, kind: string): number => structure.match(new RegExp(`^ *${kind}\\b`, 'gm'))?.length ?? 0;
