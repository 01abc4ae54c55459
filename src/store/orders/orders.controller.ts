import { Body, Controller, Get, HttpCode, Param, ParseUUIDPipe, Patch, Post, Query, Res, UseInterceptors } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { FastifyReply } from 'fastify';
import {
  Allow,
  type Caller,
  CurrentCaller,
  EtagInterceptor,
  type KeyedRequest,
  RequestKey,
  TakesRequestKey,
  TakesVersion,
  VersionSeen,
} from '../../app/index.js';
import { sendTable } from '../csv/table-file.js';
import { ChangeOrders } from './change-orders.js';
import { MakeOrders } from './make-orders.js';
import { OrderList } from './order-list.js';
import type { AwaitedOrdersView, DraftsView, LeadTimesView, LetterView, OrdersPageView, OrderView } from './order-views.dto.js';
import { CancelOrderDto, EndOrderDto, OrderDto, OrderEditDto, OrdersQuery, PromiseDto, WantedLinesDto } from './orders.dto.js';

const COLUMNS = ['order', 'line', 'item', 'supplier code', 'name', 'quantity', 'unit', 'price', 'currency', 'needed on'] as const;

@ApiTags('orders')
@Controller()
@UseInterceptors(EtagInterceptor)
@Allow('manager', 'storekeeper')
export class OrdersController {
  constructor(
    private readonly orders: OrderList,
    private readonly making: MakeOrders,
    private readonly changing: ChangeOrders,
  ) {}

  /** The latest first */
  @Get('orders')
  list(@Query() query: OrdersQuery): Promise<OrdersPageView> {
    return this.orders.page(query);
  }

  /** What was sent and has not all come, with the day by which it should be here: the latest first */
  @Get('orders/awaited')
  awaited(): Promise<AwaitedOrdersView> {
    return this.orders.awaited();
  }

  @Get('orders/:id')
  read(@Param('id', ParseUUIDPipe) id: string): Promise<OrderView> {
    return this.orders.read(id);
  }

  /** The lines of an order as a table */
  @Get('orders/:id/lines.csv')
  async table(@Param('id', ParseUUIDPipe) id: string, @Res() reply: FastifyReply): Promise<void> {
    const { name, rows } = await this.orders.table(id);
    sendTable(reply, name, COLUMNS, rows);
  }

  /** What is written to the supplier: the order or, once it was sent, the question when it comes */
  @Get('orders/:id/letter')
  letter(@CurrentCaller() caller: Caller, @Param('id', ParseUUIDPipe) id: string): Promise<LetterView> {
    return this.orders.letter(caller, id);
  }

  @Post('orders')
  @TakesRequestKey()
  create(@CurrentCaller() caller: Caller, @RequestKey() key: KeyedRequest, @Body() input: OrderDto): Promise<OrderView> {
    return this.making.create(caller, key, input);
  }

  /** Puts what is wanted together into drafts, one for each supplier and place, in whole packs and, where it can be, above the supplier’s minimum order */
  @Post('orders/drafts')
  @TakesRequestKey()
  group(@CurrentCaller() caller: Caller, @RequestKey() key: KeyedRequest, @Body() { lines }: WantedLinesDto): Promise<DraftsView> {
    return this.making.group(caller, key, lines);
  }

  /** Changes a draft */
  @Patch('orders/:id')
  @TakesVersion()
  edit(
    @CurrentCaller() caller: Caller,
    @Param('id', ParseUUIDPipe) id: string,
    @VersionSeen() version: number,
    @Body() change: OrderEditDto,
  ): Promise<OrderView> {
    return this.making.edit(caller, id, version, change);
  }

  /** Approves a draft; above the limit of the settings a manager does */
  @Post('orders/:id/approve')
  @HttpCode(200)
  @TakesVersion()
  approve(@CurrentCaller() caller: Caller, @Param('id', ParseUUIDPipe) id: string, @VersionSeen() version: number): Promise<OrderView> {
    return this.changing.approve(caller, id, version);
  }

  /** Takes an approved order back to a draft */
  @Post('orders/:id/take-back')
  @HttpCode(200)
  @TakesVersion()
  takeBack(@CurrentCaller() caller: Caller, @Param('id', ParseUUIDPipe) id: string, @VersionSeen() version: number): Promise<OrderView> {
    return this.changing.takeBack(caller, id, version);
  }

  /** Says that somebody sent the order to the supplier, on paper or from a program of their own */
  @Post('orders/:id/send')
  @HttpCode(200)
  @TakesVersion()
  send(@CurrentCaller() caller: Caller, @Param('id', ParseUUIDPipe) id: string, @VersionSeen() version: number): Promise<OrderView> {
    return this.changing.send(caller, id, version);
  }

  /** The day that the supplier has confirmed */
  @Post('orders/:id/promise')
  @HttpCode(200)
  @TakesVersion()
  promise(
    @CurrentCaller() caller: Caller,
    @Param('id', ParseUUIDPipe) id: string,
    @VersionSeen() version: number,
    @Body() { promisedOn }: PromiseDto,
  ): Promise<OrderView> {
    return this.changing.promise(caller, id, version, promisedOn);
  }

  /** Ends an order of which nothing more comes */
  @Post('orders/:id/close')
  @HttpCode(200)
  @TakesVersion()
  close(
    @CurrentCaller() caller: Caller,
    @Param('id', ParseUUIDPipe) id: string,
    @VersionSeen() version: number,
    @Body() { reason }: EndOrderDto,
  ): Promise<OrderView> {
    return this.changing.close(caller, id, version, reason);
  }

  /** Ends an order of which nothing has come */
  @Post('orders/:id/cancel')
  @HttpCode(200)
  @TakesVersion()
  cancel(
    @CurrentCaller() caller: Caller,
    @Param('id', ParseUUIDPipe) id: string,
    @VersionSeen() version: number,
    @Body() { reason }: CancelOrderDto,
  ): Promise<OrderView> {
    return this.changing.cancel(caller, id, version, reason);
  }

  /** How long an item takes to come from each supplier, as it was learnt from receipts and from what is still awaited */
  @Get('items/:id/lead-times')
  leadTimes(@Param('id', ParseUUIDPipe) id: string): Promise<LeadTimesView> {
    return this.orders.leadTimesOf(id);
  }
}
