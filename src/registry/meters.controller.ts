import { Body, Controller, Get, HttpCode, Param, ParseUUIDPipe, Patch, Post, Query, UseInterceptors } from '@nestjs/common';
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
import { MeterDto, MeterEditDto, MetersPageView, MetersQuery, type MeterView } from './meters.dto.js';
import { Meters } from './meters.js';
import { EndDto } from './registry.dto.js';

@ApiTags('meters')
@Controller('meters')
@UseInterceptors(EtagInterceptor)
export class MetersController {
  constructor(private readonly meters: Meters) {}

  @Get()
  @AllowSignedIn()
  async list(@CurrentCaller() caller: Caller, @Query() query: MetersQuery): Promise<MetersPageView> {
    const { skidId, positionId } = query;
    return viewOf(MetersPageView, await this.meters.list(caller, query, given({ positionId, position: skidId === undefined ? undefined : { skidId } })));
  }

  @Get(':id')
  @AllowSignedIn()
  read(@CurrentCaller() caller: Caller, @Param('id', ParseUUIDPipe) id: string): Promise<MeterView> {
    return this.meters.read(caller, id);
  }

  @Post()
  @Allow('manager')
  @TakesRequestKey()
  create(@CurrentCaller() caller: Caller, @RequestKey() key: KeyedRequest, @Body() input: MeterDto): Promise<MeterView> {
    return this.meters.create(caller, key, input);
  }

  @Patch(':id')
  @Allow('manager')
  @TakesVersion()
  edit(@Param('id', ParseUUIDPipe) id: string, @VersionSeen() version: number, @Body() change: MeterEditDto): Promise<MeterView> {
    return this.meters.edit(id, version, change);
  }

  @Post(':id/end')
  @Allow('manager')
  @HttpCode(204)
  @TakesVersion()
  end(@Param('id', ParseUUIDPipe) id: string, @VersionSeen() version: number, @Body() { on }: EndDto): Promise<void> {
    return this.meters.end(id, version, on);
  }
}
