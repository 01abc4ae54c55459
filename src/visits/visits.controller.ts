import { Body, Controller, Delete, Get, HttpCode, Param, ParseUUIDPipe, Patch, Post, Query, UseInterceptors } from '@nestjs/common';
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
import type { KitView } from './kit.dto.js';
import { PlanVisit } from './plan-visit.js';
import { PromiseVisit } from './promise-visit.js';
import { ShiftVisit } from './shift-visit.js';
import { VisitKits } from './visit-kits.js';
import { VisitList } from './visit-list.js';
import type { VisitCheckView, VisitDetailView, VisitsPageView } from './visit-views.dto.js';
import { CallOffDto, VisitDto, VisitEditDto, VisitJobsDto, VisitsQuery } from './visits.dto.js';

@ApiTags('visits')
@Controller('visits')
@UseInterceptors(EtagInterceptor)
@Allow('manager')
export class VisitsController {
  constructor(
    private readonly visits: VisitList,
    private readonly planning: PlanVisit,
    private readonly shifting: ShiftVisit,
    private readonly promising: PromiseVisit,
    private readonly kits: VisitKits,
  ) {}

  /** Visits in the order in which they take place; by week with from and to */
  @Get()
  @AllowSignedIn()
  list(@CurrentCaller() caller: Caller, @Query() query: VisitsQuery): Promise<VisitsPageView> {
    return this.visits.page(caller, query);
  }

  @Get(':id')
  @AllowSignedIn()
  read(@CurrentCaller() caller: Caller, @Param('id', ParseUUIDPipe) id: string): Promise<VisitDetailView> {
    return this.visits.read(caller, id);
  }

  /** What to take along */
  @Get(':id/kit')
  @Allow('manager', 'storekeeper', 'technician')
  kit(@Param('id', ParseUUIDPipe) id: string): Promise<KitView> {
    return this.kits.ofVisit(id);
  }

  /** Makes a visit, and jobs of the dues that are named */
  @Post()
  @TakesRequestKey()
  make(@CurrentCaller() caller: Caller, @RequestKey() key: KeyedRequest, @Body() input: VisitDto): Promise<VisitDetailView> {
    return this.planning.make(caller, key, input);
  }

  /** Shifts a visit, sends other people, or edits its notes */
  @Patch(':id')
  @TakesVersion()
  shift(
    @CurrentCaller() caller: Caller,
    @Param('id', ParseUUIDPipe) id: string,
    @VersionSeen() version: number,
    @Body() change: VisitEditDto,
  ): Promise<VisitDetailView> {
    return this.shifting.shift(caller, id, version, change);
  }

  /** What a change would bring, without making it */
  @Post(':id/check')
  @HttpCode(200)
  check(@Param('id', ParseUUIDPipe) id: string, @Body() change: VisitEditDto): Promise<VisitCheckView> {
    return this.shifting.check(id, change);
  }

  @Post(':id/jobs')
  @HttpCode(200)
  @TakesRequestKey()
  addJobs(
    @CurrentCaller() caller: Caller,
    @RequestKey() key: KeyedRequest,
    @Param('id', ParseUUIDPipe) id: string,
    @Body() input: VisitJobsDto,
  ): Promise<VisitDetailView> {
    return this.planning.addJobs(caller, key, id, input);
  }

  /** Takes a job out of a visit: it waits for another one */
  @Delete(':id/jobs/:jobId')
  removeJob(@CurrentCaller() caller: Caller, @Param('id', ParseUUIDPipe) id: string, @Param('jobId', ParseUUIDPipe) jobId: string): Promise<VisitDetailView> {
    return this.planning.removeJob(caller, id, jobId);
  }

  /** Tells the client that somebody comes */
  @Post(':id/promise')
  @HttpCode(200)
  promise(@CurrentCaller() caller: Caller, @Param('id', ParseUUIDPipe) id: string): Promise<VisitDetailView> {
    return this.promising.promise(caller, id);
  }

  /** Nobody goes: its jobs wait for another visit */
  @Post(':id/call-off')
  @HttpCode(200)
  callOff(@CurrentCaller() caller: Caller, @Param('id', ParseUUIDPipe) id: string, @Body() { reason }: CallOffDto): Promise<VisitDetailView> {
    return this.promising.callOff(caller, id, reason);
  }
}
