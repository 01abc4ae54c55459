import { Controller, Get, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { AllowSignedIn, type Caller, CurrentCaller } from '../app/index.js';
import { IndicatorsQuery, type IndicatorsView } from './indicators.dto.js';
import { Indicators } from './indicators.js';

@ApiTags('indicators')
@Controller('indicators')
export class IndicatorsController {
  constructor(private readonly indicators: Indicators) {}

  /** Each with its numerator and denominator; a client reads those of their own skids, without the department's work */
  @Get()
  @AllowSignedIn()
  read(@CurrentCaller() caller: Caller, @Query() query: IndicatorsQuery): Promise<IndicatorsView> {
    return this.indicators.read(caller, query);
  }
}
