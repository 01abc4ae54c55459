import { Controller, Get, Param, ParseUUIDPipe } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { AllowSignedIn, type Caller, CurrentCaller, viewOf } from '../app/index.js';
import { MachineView } from './condition.dto.js';
import { MachinesRepository } from './machines.repository.js';

@ApiTags('condition')
@Controller('skids/:skidId/machines')
export class ConditionController {
  constructor(private readonly machines: MachinesRepository) {}

  /** Life and use of every machine of the skid by its counters */
  @Get()
  @AllowSignedIn()
  async list(@CurrentCaller() caller: Caller, @Param('skidId', ParseUUIDPipe) skidId: string): Promise<MachineView[]> {
    const rows = await this.machines.ofSkid(caller, skidId);
    return rows.map(({ positionId, positionName, positionKind, counter, life, asOf, dailyUse, source, rejected }) =>
      viewOf(MachineView, { positionId, positionName, positionKind, counter, life, asOf, dailyUse, source, rejected }),
    );
  }
}
