import { Body, Controller, Get, HttpCode, Param, ParseUUIDPipe, Post, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { Allow, type Caller, CurrentCaller } from '../../app/index.js';
import { RepairBackDto, type RepairsPageView, RepairsQuery, type RepairView, SendForRepairDto } from './repairs.dto.js';
import { Repairs } from './repairs.js';

@ApiTags('stock')
@Controller('repairs')
@Allow('manager', 'storekeeper')
export class RepairsController {
  constructor(private readonly repairs: Repairs) {}

  /** Parts that went out for repair, the latest sent first */
  @Get()
  @Allow('manager', 'storekeeper', 'technician')
  list(@Query() query: RepairsQuery): Promise<RepairsPageView> {
    return this.repairs.list(query);
  }

  @Get(':id')
  @Allow('manager', 'storekeeper', 'technician')
  read(@Param('id', ParseUUIDPipe) id: string): Promise<RepairView> {
    return this.repairs.read(id);
  }

  /** Sends one part out, with what its counters show */
  @Post()
  send(@CurrentCaller() caller: Caller, @Body() input: SendForRepairDto): Promise<RepairView> {
    return this.repairs.send(caller, input);
  }

  /** How it came back, or that it was scrapped there */
  @Post(':id/back')
  @HttpCode(200)
  back(@CurrentCaller() caller: Caller, @Param('id', ParseUUIDPipe) id: string, @Body() input: RepairBackDto): Promise<RepairView> {
    return this.repairs.back(caller, id, input);
  }
}
