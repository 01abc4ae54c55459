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
import { PositionDto, PositionEditDto, PositionsPageView, PositionsQuery, type PositionView } from './positions.dto.js';
import { Positions } from './positions.js';
import { EndDto } from './registry.dto.js';

@ApiTags('positions')
@Controller('positions')
@UseInterceptors(EtagInterceptor)
export class PositionsController {
  constructor(private readonly positions: Positions) {}

  @Get()
  @AllowSignedIn()
  async list(@CurrentCaller() caller: Caller, @Query() query: PositionsQuery): Promise<PositionsPageView> {
    const { skidId } = query;
    return viewOf(PositionsPageView, await this.positions.list(caller, query, given({ skidId })));
  }

  @Get(':id')
  @AllowSignedIn()
  read(@CurrentCaller() caller: Caller, @Param('id', ParseUUIDPipe) id: string): Promise<PositionView> {
    return this.positions.read(caller, id);
  }

  @Post()
  @Allow('manager')
  @TakesRequestKey()
  create(@CurrentCaller() caller: Caller, @RequestKey() key: KeyedRequest, @Body() input: PositionDto): Promise<PositionView> {
    return this.positions.create(caller, key, input);
  }

  @Patch(':id')
  @Allow('manager')
  @TakesVersion()
  edit(@Param('id', ParseUUIDPipe) id: string, @VersionSeen() version: number, @Body() change: PositionEditDto): Promise<PositionView> {
    return this.positions.edit(id, version, change);
  }

  /** Needs the part to be removed, and the positions within it to have ended */
  @Post(':id/end')
  @Allow('manager')
  @HttpCode(204)
  @TakesVersion()
  end(@Param('id', ParseUUIDPipe) id: string, @VersionSeen() version: number, @Body() { on }: EndDto): Promise<void> {
    return this.positions.end(id, version, on);
  }
}
