import { Body, Controller, Get, HttpCode, Param, ParseUUIDPipe, Post, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { Allow, type Caller, CurrentCaller } from '../../app/index.js';
import { ArriveDto, SendDto, type TransfersPageView, TransfersQuery, type TransferView } from './transfers.dto.js';
import { Transfers } from './transfers.js';

@ApiTags('stock')
@Controller('transfers')
@Allow('manager', 'storekeeper', 'technician')
export class TransfersController {
  constructor(private readonly transfers: Transfers) {}

  /** Goods between two places, the latest sent first */
  @Get()
  list(@Query() query: TransfersQuery): Promise<TransfersPageView> {
    return this.transfers.list(query);
  }

  @Get(':id')
  read(@Param('id', ParseUUIDPipe) id: string): Promise<TransferView> {
    return this.transfers.read(id);
  }

  /** Sends goods off; a technician, from or to their own van */
  @Post()
  send(@CurrentCaller() caller: Caller, @Body() input: SendDto): Promise<TransferView> {
    return this.transfers.send(caller, input);
  }

  /** What came, in parts or at once, and what of it is given up */
  @Post(':id/arrivals')
  @HttpCode(200)
  arrive(@CurrentCaller() caller: Caller, @Param('id', ParseUUIDPipe) id: string, @Body() input: ArriveDto): Promise<TransferView> {
    return this.transfers.arrive(caller, id, input);
  }
}
