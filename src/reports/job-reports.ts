import { Injectable } from '@nestjs/common';
import { type Caller, Clock, NotFound } from '../app/index.js';
import { jobReport, visitReport } from './core/job-report.js';
import { ReportedJobsRepository } from './jobs.repository.js';
import { type ReportFile, unitsOf } from './report-file.js';
import { ReportRenderer } from './report-renderer.js';
import type { ReportUnitsQuery } from './reports.dto.js';

/** Reports of a job, and of a visit with its jobs. */
@Injectable()
export class JobReports {
  constructor(
    private readonly repository: ReportedJobsRepository,
    private readonly renderer: ReportRenderer,
    private readonly clock: Clock,
  ) {}

  async ofJob(caller: Caller, jobId: string, units: ReportUnitsQuery): Promise<ReportFile> {
    const facts = await this.repository.job(caller, jobId);
    if (facts === undefined) throw new NotFound('job', jobId);
    const { job } = facts;
    const report = jobReport(facts, { units: unitsOf(units), timeZone: job.timeZone, now: this.clock.now() });
    return { name: `${job.skidName} job ${job.no}.pdf`, pdf: await this.renderer.render(report) };
  }

  async ofVisit(caller: Caller, visitId: string, units: ReportUnitsQuery): Promise<ReportFile> {
    const visit = await this.repository.visit(caller, visitId);
    if (visit === undefined) throw new NotFound('visit', visitId);
    const report = visitReport(visit, { units: unitsOf(units), timeZone: visit.timeZone, now: this.clock.now() });
    return { name: `${visit.siteName} visit ${visit.onDay}.pdf`, pdf: await this.renderer.render(report) };
  }
}
