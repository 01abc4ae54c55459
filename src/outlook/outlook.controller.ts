import { Controller, Get, Param } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { AllowSignedIn, type Caller, CurrentCaller } from '../app/index.js';
import { TrendParams, type TrendView } from './outlook.dto.js';
import { Trends } from './trends.js';

@ApiTags('outlook')
@Controller('skids/:skidId/trends')
export class OutlookController {
  constructor(private readonly trends: Trends) {}

  /** A daily series with its limit, baseline and forecast */
  @Get(':quantity')
  @AllowSignedIn()
  read(@CurrentCaller() caller: Caller, @Param() { skidId, quantity }: TrendParams): Promise<TrendView> {
    return this.trends.read(caller, skidId, quantity);
  }
}
