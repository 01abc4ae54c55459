import { Body, Controller, Get, HttpCode, Param, ParseUUIDPipe, Post, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { Allow, AllowSignedIn, type Caller, CurrentCaller, type KeyedRequest, PageQuery, RequestKey, TakesRequestKey, viewOf } from '../app/index.js';
import { FitPart } from './fit-part.js';
import { FittingHistory } from './fitting-history.js';
import { FitPartDto, FittingsPageView, type FittingView, PartsPageView, PartsQuery, RemovePartDto } from './fittings.dto.js';
import { RemovePart } from './remove-part.js';

@ApiTags('fittings')
@Controller()
export class FittingsController {
  constructor(
    private readonly history: FittingHistory,
    private readonly fitPart: FitPart,
    private readonly removePart: RemovePart,
  ) {}

  /** What was fitted in the position, the latest first */
  @Get('positions/:id/fittings')
  @AllowSignedIn()
  async list(@CurrentCaller() caller: Caller, @Param('id', ParseUUIDPipe) id: string, @Query() query: PageQuery): Promise<FittingsPageView> {
    return viewOf(FittingsPageView, await this.history.ofPosition(caller, id, query));
  }

  /** Fits a part; where one is there already, replaces it */
  @Post('positions/:id/fittings')
  @Allow('manager', 'technician')
  @TakesRequestKey()
  fit(
    @CurrentCaller() caller: Caller,
    @RequestKey() key: KeyedRequest,
    @Param('id', ParseUUIDPipe) id: string,
    @Body() input: FitPartDto,
  ): Promise<FittingView> {
    return this.fitPart.run(caller, key, id, input);
  }

  @Post('fittings/:id/removal')
  @Allow('manager', 'technician')
  @HttpCode(200)
  @TakesRequestKey()
  remove(
    @CurrentCaller() caller: Caller,
    @RequestKey() key: KeyedRequest,
    @Param('id', ParseUUIDPipe) id: string,
    @Body() input: RemovePartDto,
  ): Promise<FittingView> {
    return this.removePart.run(caller, key, id, input);
  }

  /** Parts by serial number or lot, the latest known first, and where each is fitted */
  @Get('parts')
  @AllowSignedIn()
  async listParts(@CurrentCaller() caller: Caller, @Query() query: PartsQuery): Promise<PartsPageView> {
    return viewOf(PartsPageView, await this.history.parts(caller, query));
  }
}
