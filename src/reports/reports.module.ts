import { Module } from '@nestjs/common';
import { OutlookModule } from '../outlook/index.js';
import { PeriodRepository } from './period.repository.js';
import { PeriodReports } from './period-reports.js';
import { ReportRenderer } from './report-renderer.js';
import { ReportsController } from './reports.controller.js';

@Module({ imports: [OutlookModule], controllers: [ReportsController], providers: [PeriodReports, PeriodRepository, ReportRenderer] })
export class ReportsModule {}
