import { Injectable } from '@nestjs/common';
import { Database, NotFound, viewOf } from '../app/index.js';
import type { ReportProblem } from './core/judge-report.js';
import { ReportProblemView } from './jobs.dto.js';
import { findReport } from './report-writes.repository.js';
import { type JobReportDto, SentReportView } from './reports.dto.js';

/** Gives out a job sheet as it was sent. */
@Injectable()
export class ReadReport {
  constructor(private readonly database: Database) {}

  async read(jobId: string, reportId: string): Promise<SentReportView> {
    const report = await findReport(this.database.prisma, reportId);
    if (report === null || report.jobId !== jobId) throw new NotFound('job sheet', reportId);
    const { id, state, by, receivedAt, content } = report;
    const problems = (report.problems as unknown as ReportProblem[]).map((problem) => viewOf(ReportProblemView, problem));
    return viewOf(SentReportView, { id, state, by, receivedAt, problems, content: content as unknown as JobReportDto });
  }
}
