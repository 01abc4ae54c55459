import { Controller, Get, Param, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { AllowSignedIn, type Caller, CurrentCaller } from '../../app/index.js';
import { type ComingPageView, ComingQuery } from './coming.dto.js';
import { Coming } from './coming.js';
import { OutlookRecord } from './outlook-record.js';
import { type PastForecastView, PastParams, PastQuery } from './past.dto.js';
import { PastForecasts } from './past.js';
import { OutlookRecordQuery, type OutlookRecordView } from './record.dto.js';

@ApiTags('outlook')
@Controller()
export class OutlooksController {
  constructor(
    private readonly coming: Coming,
    private readonly record: OutlookRecord,
    private readonly past: PastForecasts,
  ) {}

  /** Present forecasts of all skids, what comes first on top */
  @Get('outlooks')
  @AllowSignedIn()
  page(@CurrentCaller() caller: Caller, @Query() query: ComingQuery): Promise<ComingPageView> {
    return this.coming.page(caller, query);
  }

  /** How right forecasts have been, by what they were about and how far ahead they looked */
  @Get('outlooks/record')
  @AllowSignedIn()
  read(@CurrentCaller() caller: Caller, @Query() query: OutlookRecordQuery): Promise<OutlookRecordView> {
    return this.record.read(caller, query);
  }

  /** What was forecast for a skid week by week, beside what came */
  @Get('skids/:skidId/outlooks')
  @AllowSignedIn()
  ofSkid(@CurrentCaller() caller: Caller, @Param() { skidId }: PastParams, @Query() { limitKind }: PastQuery): Promise<PastForecastView[]> {
    return this.past.read(caller, skidId, limitKind);
  }
}
