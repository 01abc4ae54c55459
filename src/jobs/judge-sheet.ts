import { Injectable } from '@nestjs/common';
import { Clock, type Reader } from '../app/index.js';
import { RecordWork } from '../intake/index.js';
import { timesAtOdds } from './core/breakdown/times-at-odds.js';
import { judgeRecords } from './core/judge-records.js';
import { judgeReport, type ReportProblem } from './core/judge-report.js';
import { eventsOf, handEntryOf, type ReportedEvent } from './report-events.js';
import { type ReportFacts, readReportFacts } from './report-facts.repository.js';
import { ReportProofs } from './report-proofs.js';
import type { JobReportDto } from './reports.dto.js';

export interface JudgedReport {
  readonly facts: ReportFacts;
  readonly events: readonly ReportedEvent[];
  readonly problems: readonly ReportProblem[];
}

/** Everything about a job sheet that cannot be so, before anything of it is written. */
@Injectable()
export class JudgeSheet {
  constructor(
    private readonly record: RecordWork,
    private readonly proofs: ReportProofs,
    private readonly clock: Clock,
  ) {}

  async judge(tx: Reader, job: { id: string; skidId: string }, report: JobReportDto, by: string): Promise<JudgedReport> {
    const facts = await readReportFacts(tx, job, report);
    const events = eventsOf(report, facts);
    const tasks = facts.tasks.filter(({ outcome }) => outcome !== 'done');
    const now = this.clock.now();
    const problems = [
      ...judgeReport(report, { tasks, meters: facts.meters, now }),
      ...judgeRecords(report),
      ...(await breakdownAtOdds(tx, job.id, report, now)),
    ];
    const hand = handEntryOf(report, facts, by);
    const unknown = [...unknownThings(report, facts), ...(await this.proofs.faults(tx, job.skidId, report, facts))];
    const known = events.filter(({ event }) => event.kind !== 'fitted' || event.itemCode !== '');
    const faults = await this.record.faults(tx, { skidId: job.skidId, events: known, hand });
    const ofFacts = faults.map(({ event, column, value, message }) => ({
      pointer: `${event === null ? '#' : (known[event]?.pointer ?? '#')}${column === null ? '' : `/${column}`}`,
      message: value === null ? message : `${value} ${message}`,
    }));
    const named = new Set(problems.map(({ pointer }) => pointer));
    return { facts, events, problems: [...problems, ...unknown, ...ofFacts.filter(({ pointer }) => !named.has(pointer) && !isOfNamedMeter(pointer, named))] };
  }
}

/** The times of the breakdown as they would be with what the sheet says. */
async function breakdownAtOdds(tx: Reader, jobId: string, { breakdown, outcome, finishedAt }: JobReportDto, now: Date): Promise<ReportProblem[]> {
  if (breakdown == null) return [];
  const row = await tx.breakdown.findUnique({ where: { jobId } });
  if (row === null) return [{ pointer: '#/breakdown', message: 'this job is no breakdown: leave it out, or ask for a follow-up with a severity' }];
  const moment = (told: string | null | undefined, known: Date | null) => (told == null ? known : new Date(told));
  const downFrom = moment(breakdown.downFrom, row.downFrom);
  const restoredAt = moment(breakdown.restoredAt, row.restoredAt ?? (outcome === 'finished' && downFrom !== null ? new Date(finishedAt) : null));
  const repairMinutes = breakdown.repairMinutes ?? row.repairMinutes;
  return timesAtOdds({ noticedAt: row.noticedAt, downFrom, restoredAt, repairMinutes }, now).map(({ field, message }) => ({
    pointer: `#/breakdown/${field}`,
    message,
  }));
}

/** A meter that is no meter of the skid is told once. */
const isOfNamedMeter = (pointer: string, named: ReadonlySet<string>) => named.has(pointer.replace(/(\/meters\/\d+)\/.*/, '$1/meterId'));

function unknownThings(report: JobReportDto, { items, places, positions }: ReportFacts): ReportProblem[] {
  const item = (id: string, pointer: string) => (items.has(id) ? [] : [{ pointer, message: `${id} is no item of the catalogue` }]);
  const place = (id: string | null | undefined, pointer: string) =>
    id == null || places.has(id) ? [] : [{ pointer, message: `${id} is no place where stock lies` }];
  const position = (id: string, pointer: string) => (positions.has(id) ? [] : [{ pointer, message: `${id} is no position of this skid` }]);
  return [
    ...report.partsUsed.flatMap(({ itemId, placeId }, at) => [...item(itemId, `#/partsUsed/${at}/itemId`), ...place(placeId, `#/partsUsed/${at}/placeId`)]),
    ...report.partsFitted.flatMap(({ itemId, fromPlaceId }, at) => [
      ...item(itemId, `#/partsFitted/${at}/itemId`),
      ...place(fromPlaceId, `#/partsFitted/${at}/fromPlaceId`),
    ]),
    ...report.partsRemoved.flatMap(({ toPlaceId }, at) => place(toPlaceId, `#/partsRemoved/${at}/toPlaceId`)),
    ...report.fibreRepairs.flatMap(({ positionId }, at) => position(positionId, `#/fibreRepairs/${at}/positionId`)),
    ...report.calibrations.flatMap(({ positionId }, at) => position(positionId, `#/calibrations/${at}/positionId`)),
  ];
}
