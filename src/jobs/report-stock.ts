import { Injectable } from '@nestjs/common';
import { type Caller, newId, type Reader } from '../app/index.js';
import { Ledger, type Post, type ShortLine } from '../store/index.js';
import type { ReportProblem } from './core/judge-report.js';
import type { fittedNow } from './report-facts.repository.js';
import { postsOfReport } from './report-writes.repository.js';
import type { JobReportDto } from './reports.dto.js';

type Removed = Awaited<ReturnType<typeof fittedNow>>[number];

interface OfJob {
  readonly jobId: string;
  readonly no: number;
  readonly caller: Pick<Caller, 'id' | 'name'>;
}

/** What a report takes from stock, and what it brings back to it. */
@Injectable()
export class ReportStock {
  constructor(private readonly ledger: Ledger) {}

  /** Short: what is missing, at its field; then nothing was posted. */
  async post(tx: Reader, { jobId, no, caller }: OfJob, report: JobReportDto, removed: readonly Removed[]): Promise<ReportProblem[]> {
    const base = { at: new Date(report.finishedAt), caller, note: `Job ${no}`, jobId, reportId: report.id };
    const used = [
      ...report.partsUsed.flatMap(({ itemId, quantity, lot = null, placeId, countWasWrong }, at) =>
        placeId == null
          ? []
          : [
              {
                move: { itemId, lot, partId: null, quantity, fromPlaceId: placeId, toPlaceId: null, countWasWrong },
                pointer: `#/partsUsed/${at}/quantity`,
              },
            ],
      ),
      ...report.partsFitted.flatMap(({ itemId, lot = null, setCount, fromPlaceId, countWasWrong }, at) =>
        fromPlaceId == null
          ? []
          : [
              {
                move: { itemId, lot, partId: null, quantity: String(setCount), fromPlaceId, toPlaceId: null, countWasWrong },
                pointer: `#/partsFitted/${at}/fromPlaceId`,
              },
            ],
      ),
    ];
    if (used.length > 0) {
      const posted = await this.ledger.post(tx, { ...base, id: newId(), kind: 'use', moves: used.map(({ move }) => move) });
      if (posted.kind === 'short')
        return posted.lines.flatMap((line) => used.filter(({ move }) => isOf(move, line)).map(({ pointer }) => ({ pointer, message: shortInWords(line) })));
    }
    const back = report.partsRemoved.flatMap(({ positionId, toPlaceId }): Post['moves'][number][] => {
      const part = removed.find((each) => each.positionId === positionId);
      if (toPlaceId == null || part === undefined) return [];
      return [{ itemId: part.itemId, lot: part.lot, partId: part.partId, quantity: String(part.setCount), fromPlaceId: null, toPlaceId }];
    });
    if (back.length > 0) await this.ledger.post(tx, { ...base, id: newId(), kind: 'return', moves: back });
    return [];
  }

  /** Takes back what the report has posted. Answers what stands in the way. */
  async takeBack(tx: Reader, reportId: string, caller: Pick<Caller, 'id' | 'name'>, at: Date, note: string): Promise<string[]> {
    const problems: string[] = [];
    for (const id of await postsOfReport(tx, reportId)) {
      const posted = await this.ledger.reverse(tx, id, { id: newId(), at, caller, note });
      if (posted.kind === 'short') problems.push(...posted.lines.map(shortInWords));
    }
    return problems;
  }
}

const isOf = (move: { itemId: string; fromPlaceId: string; lot: string | null }, line: ShortLine) =>
  move.itemId === line.itemId && move.fromPlaceId === line.placeId && (line.lot === null || move.lot === line.lot);

function shortInWords({ itemCode, placeName, lot, onHand, asked }: ShortLine): string {
  const which = lot === null ? itemCode : `${itemCode}, lot ${lot}`;
  return `${placeName} holds ${onHand} of ${which}, and ${asked} were taken. Say from which other place, or that the count was wrong`;
}
