import { Body, Controller, Delete, Get, HttpCode, Param, ParseUUIDPipe, Patch, Post, Put, Query, UseInterceptors } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import {
  Allow,
  AllowSignedIn,
  type Caller,
  CurrentCaller,
  EtagInterceptor,
  given,
  type KeyedRequest,
  RequestKey,
  TakesRequestKey,
  TakesVersion,
  VersionSeen,
  viewOf,
} from '../app/index.js';
import { EndDto } from './registry.dto.js';
import { ServiceStates } from './service-states.js';
import { SkidAreas } from './skid-areas.js';
import {
  AreaDayDto,
  ServesDto,
  ServiceStateDto,
  type ServiceStateView,
  SkidAreaDto,
  SkidDto,
  SkidEditDto,
  SkidsPageView,
  SkidsQuery,
  type SkidView,
} from './skids.dto.js';
import { Skids } from './skids.js';

@ApiTags('skids')
@Controller('skids')
@UseInterceptors(EtagInterceptor)
export class SkidsController {
  constructor(
    private readonly skids: Skids,
    private readonly areas: SkidAreas,
    private readonly states: ServiceStates,
  ) {}

  @Get()
  @AllowSignedIn()
  async list(@CurrentCaller() caller: Caller, @Query() query: SkidsQuery): Promise<SkidsPageView> {
    const { clientId, siteId, kind } = query;
    return viewOf(SkidsPageView, await this.skids.list(caller, query, given({ clientId, siteId, kind })));
  }

  @Get(':id')
  @AllowSignedIn()
  read(@CurrentCaller() caller: Caller, @Param('id', ParseUUIDPipe) id: string): Promise<SkidView> {
    return this.skids.read(caller, id);
  }

  @Post()
  @Allow('manager')
  @TakesRequestKey()
  create(@CurrentCaller() caller: Caller, @RequestKey() key: KeyedRequest, @Body() input: SkidDto): Promise<SkidView> {
    return this.skids.create(caller, key, input);
  }

  @Patch(':id')
  @Allow('manager')
  @TakesVersion()
  edit(@Param('id', ParseUUIDPipe) id: string, @VersionSeen() version: number, @Body() change: SkidEditDto): Promise<SkidView> {
    return this.skids.edit(id, version, change);
  }

  @Post(':id/end')
  @Allow('manager')
  @HttpCode(204)
  @TakesVersion()
  end(@Param('id', ParseUUIDPipe) id: string, @VersionSeen() version: number, @Body() { on }: EndDto): Promise<void> {
    return this.skids.end(id, version, on);
  }

  /** The active membrane area from a day on: days before keep their own */
  @Put(':id/areas')
  @Allow('manager')
  async setArea(@CurrentCaller() caller: Caller, @Param('id', ParseUUIDPipe) id: string, @Body() area: SkidAreaDto): Promise<SkidView> {
    await this.areas.set(id, area);
    return this.skids.read(caller, id);
  }

  /** Takes back an area that was entered for a wrong day */
  @Delete(':id/areas/:fromDay')
  @Allow('manager')
  async removeArea(@CurrentCaller() caller: Caller, @Param() { id, fromDay }: AreaDayDto): Promise<SkidView> {
    await this.areas.remove(id, fromDay);
    return this.skids.read(caller, id);
  }

  /** Of shared equipment: the skids that it serves from now on */
  @Put(':id/serves')
  @Allow('manager')
  serve(@Param('id', ParseUUIDPipe) id: string, @Body() { skidIds }: ServesDto): Promise<SkidView> {
    return this.skids.serve(id, skidIds);
  }

  /** Latest first */
  @Get(':id/service-states')
  @AllowSignedIn()
  listStates(@CurrentCaller() caller: Caller, @Param('id', ParseUUIDPipe) id: string): Promise<ServiceStateView[]> {
    return this.states.history(caller, id);
  }

  /** Answers with every change, the latest first */
  @Post(':id/service-state')
  @Allow('manager', 'technician')
  @TakesRequestKey()
  changeState(
    @CurrentCaller() caller: Caller,
    @RequestKey() key: KeyedRequest,
    @Param('id', ParseUUIDPipe) id: string,
    @Body() change: ServiceStateDto,
  ): Promise<ServiceStateView[]> {
    return this.states.change(caller, key, id, change);
  }
}
