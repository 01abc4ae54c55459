import { Module } from '@nestjs/common';
import { IntakeModule } from '../intake/index.js';
import { RegistryModule } from '../registry/index.js';
import { StoreModule } from '../store/index.js';
import { UpkeepModule } from '../upkeep/index.js';
import { ChangeJobs } from './change-jobs.js';
import { JobHooks } from './job-hooks.js';
import { JobList } from './job-list.js';
import { JobsController } from './jobs.controller.js';
import { JobsRepository } from './jobs.repository.js';
import { MakeJobs } from './make-jobs.js';
import { SheetsOfJobs } from './sheets-of-jobs.js';

@Module({
  imports: [IntakeModule, RegistryModule, StoreModule, UpkeepModule],
  controllers: [JobsController],
  providers: [ChangeJobs, JobHooks, JobList, JobsRepository, MakeJobs, SheetsOfJobs],
  exports: [JobHooks, MakeJobs, SheetsOfJobs],
})
export class JobsModule {}
