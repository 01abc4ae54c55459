import { Body, Controller, Get, HttpCode, Param, ParseUUIDPipe, Patch, Post, Put, Query, UseInterceptors } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { Allow, EtagInterceptor, TakesVersion, VersionSeen } from '../../app/index.js';
import {
  KeepingDto,
  type KeepingView,
  LotEditDto,
  type LotsPageView,
  LotsQuery,
  type LotView,
  PreservedDto,
  type ValuePageView,
  ValueQuery,
} from './lots.dto.js';
import { Lots } from './lots.js';

@ApiTags('stock')
@Controller()
@UseInterceptors(EtagInterceptor)
@Allow('manager', 'storekeeper')
export class LotsController {
  constructor(private readonly lots: Lots) {}

  /** Lots, first those that must be used or preserved anew first */
  @Get('lots')
  @Allow('manager', 'storekeeper', 'technician')
  list(@Query() query: LotsQuery): Promise<LotsPageView> {
    return this.lots.list(query);
  }

  @Get('lots/:id')
  @Allow('manager', 'storekeeper', 'technician')
  read(@Param('id', ParseUUIDPipe) id: string): Promise<LotView> {
    return this.lots.read(id);
  }

  /** Corrects the expiry, holds the lot or releases it */
  @Patch('lots/:id')
  @TakesVersion()
  edit(@Param('id', ParseUUIDPipe) id: string, @VersionSeen() version: number, @Body() change: LotEditDto): Promise<LotView> {
    return this.lots.edit(id, version, change);
  }

  /** Records that it was preserved anew */
  @Post('lots/:id/preserved')
  @HttpCode(200)
  @Allow('manager', 'storekeeper', 'technician')
  preserve(@Param('id', ParseUUIDPipe) id: string, @Body() input: PreservedDto): Promise<LotView> {
    return this.lots.preserve(id, input);
  }

  /** An item that is kept in preservative, and how long that lasts */
  @Put('items/:itemId/keeping')
  keep(@Param('itemId', ParseUUIDPipe) itemId: string, @Body() input: KeepingDto): Promise<KeepingView> {
    return this.lots.keep(itemId, input);
  }

  /** What our stock is worth, by moving average and by lot */
  @Get('stock/value')
  values(@Query() query: ValueQuery): Promise<ValuePageView> {
    return this.lots.values(query);
  }
}
