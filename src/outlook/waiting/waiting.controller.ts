import { Controller, Get, Param } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { Allow } from '../../app/index.js';
import { WaitingParams, type WaitingView } from './waiting.dto.js';
import { Waiting } from './waiting.js';

@ApiTags('outlook')
@Controller('skids/:skidId/outlooks/waiting')
export class WaitingController {
  constructor(private readonly waiting: Waiting) {}

  /** What waiting costs, for each present forecast of a skid, by the day on which somebody acts */
  @Get()
  @Allow('manager', 'storekeeper', 'technician')
  ofSkid(@Param() { skidId }: WaitingParams): Promise<WaitingView[]> {
    return this.waiting.ofSkid(skidId);
  }
}
