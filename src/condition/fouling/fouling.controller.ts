import { Controller, Get, Param, ParseUUIDPipe } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { AllowSignedIn, type Caller, CurrentCaller } from '../../app/index.js';
import type { FoulingView } from './fouling.dto.js';
import { Fouling } from './fouling.js';

@ApiTags('condition')
@Controller('skids/:skidId/fouling')
export class FoulingController {
  constructor(private readonly fouling: Fouling) {}

  /** Resistance by what would take it away, what cleans gave back, and instruments that do not fit each other */
  @Get()
  @AllowSignedIn()
  read(@CurrentCaller() caller: Caller, @Param('skidId', ParseUUIDPipe) skidId: string): Promise<FoulingView> {
    return this.fouling.read(caller, skidId);
  }
}
