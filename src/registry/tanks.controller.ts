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
import { EndDto } from './registry.dto.js';
import { TankDto, TankEditDto, TanksPageView, TanksQuery, type TankView } from './tanks.dto.js';
import { Tanks } from './tanks.js';

@ApiTags('tanks')
@Controller('tanks')
@UseInterceptors(EtagInterceptor)
export class TanksController {
  constructor(private readonly tanks: Tanks) {}

  @Get()
  @AllowSignedIn()
  async list(@CurrentCaller() caller: Caller, @Query() query: TanksQuery): Promise<TanksPageView> {
    const { skidId } = query;
    return viewOf(TanksPageView, await this.tanks.list(caller, query, given({ skidId })));
  }

  @Get(':id')
  @AllowSignedIn()
  read(@CurrentCaller() caller: Caller, @Param('id', ParseUUIDPipe) id: string): Promise<TankView> {
    return this.tanks.read(caller, id);
  }

  @Post()
  @Allow('manager')
  @TakesRequestKey()
  create(@CurrentCaller() caller: Caller, @RequestKey() key: KeyedRequest, @Body() input: TankDto): Promise<TankView> {
    return this.tanks.create(caller, key, input);
  }

  @Patch(':id')
  @Allow('manager')
  @TakesVersion()
  edit(@Param('id', ParseUUIDPipe) id: string, @VersionSeen() version: number, @Body() change: TankEditDto): Promise<TankView> {
    return this.tanks.edit(id, version, change);
  }

  @Post(':id/end')
  @Allow('manager')
  @HttpCode(204)
  @TakesVersion()
  end(@Param('id', ParseUUIDPipe) id: string, @VersionSeen() version: number, @Body() { on }: EndDto): Promise<void> {
    return this.tanks.end(id, version, on);
  }
}
