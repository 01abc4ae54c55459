import { Module } from '@nestjs/common';
import { OutlookModule } from '../outlook/index.js';
import { OrdersModule } from '../store/index.js';
import { JobReports } from './job-reports.js';
import { ReportedJobsRepository } from './jobs.repository.js';
import { OrderReports } from './order-reports.js';
import { PeriodRepository } from './period.repository.js';
import { PeriodReports } from './period-reports.js';
import { ReportRenderer } from './report-renderer.js';
import { ReportsController } from './reports.controller.js';

@Module({
  imports: [OrdersModule, OutlookModule],
  controllers: [ReportsController],
  providers: [JobReports, OrderReports, PeriodReports, PeriodRepository, ReportedJobsRepository, ReportRenderer],
})
export class ReportsModule {}
