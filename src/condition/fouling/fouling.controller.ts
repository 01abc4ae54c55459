import { Controller, Get, Param, ParseUUIDPipe, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { Allow, AllowSignedIn, type Caller, CurrentCaller } from '../../app/index.js';
import { FiltrationTimeQuery, type FiltrationTimeView } from './filtration-time.dto.js';
import { FiltrationTime } from './filtration-time.js';
import type { FoulingView } from './fouling.dto.js';
import { Fouling } from './fouling.js';

@ApiTags('condition')
@Controller('skids/:skidId')
export class FoulingController {
  constructor(
    private readonly fouling: Fouling,
    private readonly filtrationTime: FiltrationTime,
  ) {}

  /** Resistance by what would take it away, what cleans gave back, and instruments that do not fit each other */
  @Get('fouling')
  @AllowSignedIn()
  read(@CurrentCaller() caller: Caller, @Param('skidId', ParseUUIDPipe) skidId: string): Promise<FoulingView> {
    return this.fouling.read(caller, skidId);
  }

  /** What other times of filtration between hydraulic cleans would give with the water of the last days */
  @Get('filtration-time')
  @Allow('manager', 'storekeeper', 'technician')
  time(@Param('skidId', ParseUUIDPipe) skidId: string, @Query() { cleanM3 }: FiltrationTimeQuery): Promise<FiltrationTimeView> {
    return this.filtrationTime.read(skidId, cleanM3 ?? null);
  }
}
