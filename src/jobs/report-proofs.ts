import { Injectable } from '@nestjs/common';
import type { FieldProblem, Reader } from '../app/index.js';
import { RecordCalibration } from '../instruments/index.js';
import { RecordIntegrity } from '../integrity/index.js';
import type { ReportProblem } from './core/judge-report.js';
import type { HeldJob } from './job-writes.repository.js';
import type { ReportFacts } from './report-facts.repository.js';
import type { JobReportDto } from './reports.dto.js';

const MINUTE_MS = 60_000;

/** What a sheet proves: integrity tests, closed fibres, instruments compared with a reference. */
@Injectable()
export class ReportProofs {
  constructor(
    private readonly integrity: RecordIntegrity,
    private readonly calibration: RecordCalibration,
  ) {}

  /** Everything of them that cannot be so. Positions that are none of the skid are told elsewhere. */
  async faults(tx: Reader, skidId: string, report: JobReportDto, { positions }: Pick<ReportFacts, 'positions'>): Promise<ReportProblem[]> {
    const { tests, repairs, calibrations } = momentsOf(report);
    const found: ReportProblem[] = [];
    const add = (list: string, index: number, faults: readonly FieldProblem[]) =>
      found.push(...faults.map(({ pointer, message }) => ({ pointer: pointer.replace('#', `#/${list}/${index}`), message })));
    for (const [index, test] of tests.entries()) add('integrityTests', index, await this.integrity.testFaults(tx, skidId, test));
    for (const [index, repair] of repairs.entries())
      if (positions.has(repair.positionId)) add('fibreRepairs', index, await this.integrity.repairFaults(tx, skidId, repair));
    for (const [index, each] of calibrations.entries()) if (positions.has(each.positionId)) add('calibrations', index, await this.calibration.faults(tx, each));
    return found;
  }

  async record(tx: Reader, { skidId: id, clientId }: HeldJob, by: string, report: JobReportDto): Promise<void> {
    const { tests, repairs, calibrations } = momentsOf(report);
    const recorded = { by, reportId: report.id };
    for (const test of tests) await this.integrity.test(tx, { id, clientId }, test, recorded);
    for (const repair of repairs) await this.integrity.repair(tx, { id, clientId }, repair, recorded);
    for (const each of calibrations) await this.calibration.record(tx, each, recorded);
  }

  async takeBack(tx: Reader, skidId: string, reportId: string): Promise<void> {
    await this.integrity.takeBack(tx, skidId, reportId);
    await this.calibration.takeBack(tx, reportId);
  }
}

/** The records with their moments. Those that share one, since the sheet knows only when it was finished, lie a minute apart in their order. */
function momentsOf({ finishedAt, integrityTests, fibreRepairs, calibrations }: JobReportDto) {
  const place = <Row extends { readonly at?: string | null }>(rows: readonly Row[], keyOf: (row: Row) => string) =>
    rows.map(({ ...row }, index) => {
      const moment = row.at ?? finishedAt;
      const later = rows.slice(index + 1).filter((other) => keyOf(other) === keyOf(row) && (other.at ?? finishedAt) === moment).length;
      return { ...row, at: new Date(new Date(moment).getTime() - later * MINUTE_MS) };
    });
  return {
    tests: place(integrityTests, () => ''),
    repairs: place(fibreRepairs, () => ''),
    calibrations: place(calibrations, ({ positionId }) => positionId),
  };
}
