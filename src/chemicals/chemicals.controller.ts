import { Controller, Get, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { AllowSignedIn, type Caller, CurrentCaller } from '../app/index.js';
import { type TankCoverPageView, TankCoverQuery } from './chemicals.dto.js';
import { CoverList } from './cover-list.js';

@ApiTags('chemicals')
@Controller('tanks')
export class ChemicalsController {
  constructor(private readonly covers: CoverList) {}

  /** Which chemical runs out when, and why; the first first */
  @Get('cover')
  @AllowSignedIn()
  list(@CurrentCaller() caller: Caller, @Query() query: TankCoverQuery): Promise<TankCoverPageView> {
    return this.covers.page(caller, query);
  }
}
