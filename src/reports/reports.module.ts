import { Module } from '@nestjs/common';
import { OutlookModule } from '../outlook/index.js';
import { JobReports } from './job-reports.js';
import { ReportedJobsRepository } from './jobs.repository.js';
import { PeriodRepository } from './period.repository.js';
import { PeriodReports } from './period-reports.js';
import { ReportRenderer } from './report-renderer.js';
import { ReportsController } from './reports.controller.js';

@Module({
  imports: [OutlookModule],
  controllers: [ReportsController],
  providers: [JobReports, PeriodReports, PeriodRepository, ReportedJobsRepository, ReportRenderer],
})
export class ReportsModule {}
