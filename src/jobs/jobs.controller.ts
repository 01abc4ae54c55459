import { Body, Controller, Get, HttpCode, Param, ParseUUIDPipe, Patch, Post, Query, UseInterceptors } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import {
  Allow,
  AllowSignedIn,
  type Caller,
  CurrentCaller,
  EtagInterceptor,
  type KeyedRequest,
  RequestKey,
  TakesRequestKey,
  TakesVersion,
  VersionSeen,
} from '../app/index.js';
import { ChangeJobs } from './change-jobs.js';
import { JobList } from './job-list.js';
import { EditJobDto, type JobDetailView, JobNoteDto, JobStateDto, type JobsPageView, JobsQuery, NewJobDto } from './jobs.dto.js';
import type { SheetView } from './sheets.dto.js';
import { SheetsOfJobs } from './sheets-of-jobs.js';

@ApiTags('jobs')
@Controller('jobs')
@UseInterceptors(EtagInterceptor)
export class JobsController {
  constructor(
    private readonly jobs: JobList,
    private readonly changes: ChangeJobs,
    private readonly sheets: SheetsOfJobs,
  ) {}

  /** Work to be done, the most urgent first, then what is done */
  @Get()
  @AllowSignedIn()
  list(@CurrentCaller() caller: Caller, @Query() query: JobsQuery): Promise<JobsPageView> {
    return this.jobs.page(caller, query);
  }

  /** A job with its tasks, what became of it, and its reports */
  @Get(':id')
  @AllowSignedIn()
  read(@CurrentCaller() caller: Caller, @Param('id', ParseUUIDPipe) id: string): Promise<JobDetailView> {
    return this.jobs.read(caller, id);
  }

  /** What whoever does the job needs in the hand */
  @Get(':id/sheet')
  @Allow('manager', 'storekeeper', 'technician')
  sheet(@Param('id', ParseUUIDPipe) id: string): Promise<SheetView> {
    return this.sheets.read(id);
  }

  @Post()
  @Allow('manager')
  @TakesRequestKey()
  async make(@CurrentCaller() caller: Caller, @RequestKey() key: KeyedRequest, @Body() input: NewJobDto): Promise<JobDetailView> {
    return this.jobs.read(caller, await this.changes.make(caller, key, input));
  }

  @Patch(':id')
  @Allow('manager')
  @TakesVersion()
  async edit(
    @CurrentCaller() caller: Caller,
    @Param('id', ParseUUIDPipe) id: string,
    @VersionSeen() version: number,
    @Body() input: EditJobDto,
  ): Promise<JobDetailView> {
    return this.jobs.read(caller, await this.changes.edit(caller, id, version, input));
  }

  /** Moves a job on by hand; its report finishes it */
  @Post(':id/state')
  @Allow('manager', 'storekeeper', 'technician')
  @HttpCode(200)
  async move(@CurrentCaller() caller: Caller, @Param('id', ParseUUIDPipe) id: string, @Body() input: JobStateDto): Promise<JobDetailView> {
    return this.jobs.read(caller, await this.changes.move(caller, id, input));
  }

  @Post(':id/notes')
  @Allow('manager', 'storekeeper', 'technician')
  async note(@CurrentCaller() caller: Caller, @Param('id', ParseUUIDPipe) id: string, @Body() input: JobNoteDto): Promise<JobDetailView> {
    return this.jobs.read(caller, await this.changes.note(caller, id, input));
  }
}
