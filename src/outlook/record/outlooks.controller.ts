import { Controller, Get, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { AllowSignedIn, type Caller, CurrentCaller } from '../../app/index.js';
import { type ComingPageView, ComingQuery } from './coming.dto.js';
import { Coming } from './coming.js';
import { OutlookRecord } from './outlook-record.js';
import { OutlookRecordQuery, type OutlookRecordView } from './record.dto.js';

@ApiTags('outlook')
@Controller('outlooks')
export class OutlooksController {
  constructor(
    private readonly coming: Coming,
    private readonly record: OutlookRecord,
  ) {}

  /** Present forecasts of all skids, what comes first on top */
  @Get()
  @AllowSignedIn()
  page(@CurrentCaller() caller: Caller, @Query() query: ComingQuery): Promise<ComingPageView> {
    return this.coming.page(caller, query);
  }

  /** How right forecasts have been, by what they were about and how far ahead they looked */
  @Get('record')
  @AllowSignedIn()
  read(@CurrentCaller() caller: Caller, @Query() query: OutlookRecordQuery): Promise<OutlookRecordView> {
    return this.record.read(caller, query);
  }
}
