import { Body, Controller, Get, HttpCode, Param, ParseUUIDPipe, Post, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { Allow, AllowSignedIn, type Caller, CurrentCaller, type KeyedRequest, PageQuery, RequestKey, TakesRequestKey } from '../app/index.js';
import { EnterEvents } from './enter-events.js';
import { CleanDto, DipDto, MeterReadingDto, ServiceEntryDto, type ServiceLogView } from './events.dto.js';
import { type LoadReportView, toReportView } from './load.dto.js';
import { ServiceLog } from './service-log.js';
import { SkidAccess } from './skid-access.js';

/** Events that a person enters one by one; the same again changes nothing. */
@ApiTags('events')
@Controller()
export class EventsController {
  constructor(
    private readonly access: SkidAccess,
    private readonly events: EnterEvents,
    private readonly log: ServiceLog,
  ) {}

  /** Cleans, part changes, service, meter exchanges and service states in one list, the latest first */
  @Get('skids/:skidId/service-log')
  @AllowSignedIn()
  async serviceLog(@CurrentCaller() caller: Caller, @Param('skidId', ParseUUIDPipe) skidId: string, @Query() query: PageQuery): Promise<ServiceLogView> {
    return this.log.list(caller, skidId, query);
  }

  @Post('skids/:skidId/cleans')
  @HttpCode(200)
  @Allow('manager', 'technician')
  @TakesRequestKey()
  async clean(
    @CurrentCaller() caller: Caller,
    @Param('skidId', ParseUUIDPipe) skidId: string,
    @Body() { at, by = caller.name, replaceDiffering, kind: clean, chemical, strengthMgL, contactMinutes, note }: CleanDto,
    @RequestKey() idempotency: KeyedRequest,
  ): Promise<LoadReportView> {
    const skid = await this.access.toWrite(caller, skidId);
    const event = { kind: 'clean', clean, chemical, strengthMgL: strengthMgL ?? null, contactMinutes: contactMinutes ?? null, note } as const;
    return toReportView(await this.events.enter({ skid, caller, at, by, event, replaceDiffering, idempotency }));
  }

  @Post('skids/:skidId/service-entries')
  @HttpCode(200)
  @Allow('manager', 'technician')
  @TakesRequestKey()
  async service(
    @CurrentCaller() caller: Caller,
    @Param('skidId', ParseUUIDPipe) skidId: string,
    @Body() { at, by = caller.name, replaceDiffering, positionId, task, minutes, note }: ServiceEntryDto,
    @RequestKey() idempotency: KeyedRequest,
  ): Promise<LoadReportView> {
    const skid = await this.access.toWrite(caller, skidId);
    const event = { kind: 'service', positionId: positionId ?? null, task, minutes: minutes ?? null, note } as const;
    return toReportView(await this.events.enter({ skid, caller, at, by, event, replaceDiffering, idempotency }));
  }

  @Post('meters/:meterId/readings')
  @HttpCode(200)
  @Allow('manager', 'technician')
  @TakesRequestKey()
  async meter(
    @CurrentCaller() caller: Caller,
    @Param('meterId', ParseUUIDPipe) meterId: string,
    @Body() { at, by = caller.name, replaceDiffering, kind, value, oldFinal = 0 }: MeterReadingDto,
    @RequestKey() idempotency: KeyedRequest,
  ): Promise<LoadReportView> {
    const skid = await this.access.toWriteMeter(caller, meterId);
    const event = kind === 'exchange' ? ({ kind, meterId, oldFinal, value } as const) : ({ kind, meterId, value } as const);
    return toReportView(await this.events.enter({ skid, caller, at, by, event, replaceDiffering, idempotency }));
  }

  @Post('tanks/:tankId/dips')
  @HttpCode(200)
  @Allow('manager', 'storekeeper', 'technician', 'client')
  @TakesRequestKey()
  async dip(
    @CurrentCaller() caller: Caller,
    @Param('tankId', ParseUUIDPipe) tankId: string,
    @Body() { at, by = caller.name, replaceDiffering, levelM, levelCm = 0, strengthGL, smallestDivisionM = 0.01 }: DipDto,
    @RequestKey() idempotency: KeyedRequest,
  ): Promise<LoadReportView> {
    const skid = await this.access.toWriteTank(caller, tankId);
    const event = { kind: 'dip', tankId, levelM: levelM ?? levelCm / 100, strengthGL: strengthGL ?? null, readingErrorM: smallestDivisionM / 2 } as const;
    return toReportView(await this.events.enter({ skid, caller, at, by, event, replaceDiffering, idempotency }));
  }
}
