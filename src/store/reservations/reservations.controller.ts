import { Body, Controller, Get, HttpCode, Param, ParseUUIDPipe, Post, Query, Res } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { FastifyReply } from 'fastify';
import { Allow, type Caller, CurrentCaller, type KeyedRequest, RequestKey, TakesRequestKey } from '../../app/index.js';
import { sendTable } from '../csv/table-file.js';
import {
  type AvailablePageView,
  AvailableQuery,
  AvailableTableQuery,
  ReservationDto,
  type ReservationsPageView,
  ReservationsQuery,
  type ReservationView,
} from './reservations.dto.js';
import { Reservations } from './reservations.js';

const AVAILABLE_COLUMNS = ['place', 'item', 'name', 'unit', 'usable', 'reserved', 'available', 'short', 'on order', 'on the way'] as const;

@ApiTags('stock')
@Controller('stock')
@Allow('manager', 'storekeeper', 'technician')
export class ReservationsController {
  constructor(private readonly reservations: Reservations) {}

  /** What may be used, by place and item, and what of it is kept back for work */
  @Get('available')
  available(@Query() query: AvailableQuery): Promise<AvailablePageView> {
    return this.reservations.available(query);
  }

  /** The same as a table */
  @Get('available.csv')
  async availableTable(@Query() query: AvailableTableQuery, @Res() reply: FastifyReply): Promise<void> {
    sendTable(reply, 'stock-available', AVAILABLE_COLUMNS, await this.reservations.table(query));
  }

  /** In the order in which they are needed */
  @Get('reservations')
  list(@Query() query: ReservationsQuery): Promise<ReservationsPageView> {
    return this.reservations.list(query);
  }

  /** Keeps stock back for a job or a visit, also more than there is */
  @Post('reservations')
  @TakesRequestKey()
  @Allow('manager', 'storekeeper')
  reserve(@CurrentCaller() caller: Caller, @RequestKey() key: KeyedRequest, @Body() input: ReservationDto): Promise<ReservationView> {
    return this.reservations.reserve(caller, key, input);
  }

  @Post('reservations/:id/release')
  @HttpCode(200)
  @Allow('manager', 'storekeeper')
  release(@Param('id', ParseUUIDPipe) id: string): Promise<ReservationView> {
    return this.reservations.releaseOne(id);
  }
}
