import { Module } from '@nestjs/common';
import { InstrumentsModule } from '../instruments/index.js';
import { IntakeModule } from '../intake/index.js';
import { IntegrityModule } from '../integrity/index.js';
import { RegistryModule } from '../registry/index.js';
import { StoreModule } from '../store/index.js';
import { UpkeepModule } from '../upkeep/index.js';
import { ApplyReport } from './apply-report.js';
import { Ask } from './breakdown-ask.js';
import { BreakdownEdit } from './breakdown-edit.js';
import { BreakdownHelp } from './breakdown-help.js';
import { BreakdownList } from './breakdown-list.js';
import { BreakdownSigns } from './breakdown-signs.js';
import { BreakdownSignsRepository } from './breakdown-signs.repository.js';
import { BreakdownsController } from './breakdowns.controller.js';
import { BreakdownsRepository } from './breakdowns.repository.js';
import { ChangeJobs } from './change-jobs.js';
import { HistoryController } from './history.controller.js';
import { History } from './history.js';
import { IndicatorsController } from './indicators.controller.js';
import { Indicators } from './indicators.js';
import { IndicatorsRepository } from './indicators.repository.js';
import { JobHooks } from './job-hooks.js';
import { JobList } from './job-list.js';
import { JobsController } from './jobs.controller.js';
import { JobsRepository } from './jobs.repository.js';
import { JudgeSheet } from './judge-sheet.js';
import { MakeJobs } from './make-jobs.js';
import { ReadReport } from './read-report.js';
import { ReportProofs } from './report-proofs.js';
import { ReportStock } from './report-stock.js';
import { ReportsController } from './reports.controller.js';
import { RequestNotes } from './request-notes.js';
import { RequestsController } from './requests.controller.js';
import { SettleReport } from './settle-report.js';
import { SheetsOfJobs } from './sheets-of-jobs.js';
import { TakeBackReport } from './take-back-report.js';
import { TakeReport } from './take-report.js';

const BREAKDOWNS = [Ask, BreakdownEdit, BreakdownHelp, BreakdownList, BreakdownSigns, BreakdownSignsRepository, BreakdownsRepository, RequestNotes];
const INDICATORS = [Indicators, IndicatorsRepository, History];

@Module({
  imports: [IntakeModule, IntegrityModule, InstrumentsModule, RegistryModule, StoreModule, UpkeepModule],
  controllers: [ReportsController, HistoryController, JobsController, BreakdownsController, RequestsController, IndicatorsController],
  providers: [
    ...BREAKDOWNS,
    ...INDICATORS,
    ApplyReport,
    JudgeSheet,
    ReportProofs,
    ReportStock,
    SettleReport,
    TakeBackReport,
    ReadReport,
    TakeReport,
    ChangeJobs,
    JobHooks,
    JobList,
    JobsRepository,
    MakeJobs,
    SheetsOfJobs,
  ],
  exports: [JobHooks, MakeJobs, SheetsOfJobs],
})
export class JobsModule {}
