import { Body, Controller, Get, HttpCode, Param, ParseUUIDPipe, Post, Put, Query, Res, UseInterceptors } from '@nestjs/common';
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
  viewOf,
} from '../../app/index.js';
import { sendTable } from '../csv/table-file.js';
import type { DraftsView } from '../orders/order-views.dto.js';
import { Decide } from './decide.js';
import { JointOrdersQuery, type JointOrdersView } from './joint/joint-orders.dto.js';
import { JointOrders } from './joint/joint-orders.js';
import { OrderAccepted } from './order-accepted.js';
import { RecomputeReorder } from './recompute-reorder.js';
import { AcceptDto, ChangeDto, DismissDto, OrderAcceptedDto, ReorderQuery, ReorderTableQuery, SiteSupplyDto, StockSettingDto } from './reorder.dto.js';
import { ReorderItem } from './reorder-item.js';
import { ReorderList, TABLE_COLUMNS } from './reorder-list.js';
import {
  RecomputeAskedView,
  type ReorderItemView,
  type ReorderLineView,
  type ReorderPageView,
  type SiteSupplyView,
  type StockSettingView,
} from './reorder-views.dto.js';
import { StockSettings } from './stock-settings.js';

@ApiTags('reorder')
@Controller('reorder')
@UseInterceptors(EtagInterceptor)
@Allow('manager', 'storekeeper')
export class ReorderController {
  constructor(
    private readonly list: ReorderList,
    private readonly items: ReorderItem,
    private readonly settings: StockSettings,
    private readonly deciding: Decide,
    private readonly joint: JointOrders,
    private readonly ordering: OrderAccepted,
    private readonly recompute: RecomputeReorder,
  ) {}

  /** What is to be ordered or brought, how much, from whom and by which day: the soonest first */
  @Get()
  page(@Query() query: ReorderQuery): Promise<ReorderPageView> {
    return this.list.page(query);
  }

  /** The list as a table */
  @Get('lines.csv')
  async table(@Query() query: ReorderTableQuery, @Res() reply: FastifyReply): Promise<void> {
    sendTable(reply, 'reorder', TABLE_COLUMNS, await this.list.table(query));
  }

  /** One item at all its places, as it is now: with its balance over time, past and projected */
  @Get('items/:itemId')
  item(@Param('itemId', ParseUUIDPipe) itemId: string): Promise<ReorderItemView> {
    return this.items.read(itemId);
  }

  @Get('items/:itemId/places/:placeId/setting')
  setting(@Param('itemId', ParseUUIDPipe) itemId: string, @Param('placeId', ParseUUIDPipe) placeId: string): Promise<StockSettingView> {
    return this.settings.read(itemId, placeId);
  }

  /** Says how an item is kept at a place; what is left out is as usual */
  @Put('items/:itemId/places/:placeId/setting')
  @TakesVersion()
  keepSetting(
    @CurrentCaller() caller: Caller,
    @Param('itemId', ParseUUIDPipe) itemId: string,
    @Param('placeId', ParseUUIDPipe) placeId: string,
    @VersionSeen() version: number,
    @Body() input: StockSettingDto,
  ): Promise<StockSettingView> {
    return this.settings.keep(caller, itemId, placeId, version, input);
  }

  /** Which store the work at a site is supplied from */
  @Put('sites/:siteId')
  supplySite(@Param('siteId', ParseUUIDPipe) siteId: string, @Body() input: SiteSupplyDto): Promise<SiteSupplyView> {
    return this.settings.supplySite(siteId, input);
  }

  /** What is due from each supplier, and what an order for it takes along */
  @Get('suppliers')
  suppliers(@Query() query: JointOrdersQuery): Promise<JointOrdersView> {
    return this.joint.list(query);
  }

  /** Puts what was accepted into draft orders, one for each supplier and place */
  @Post('orders')
  @TakesRequestKey()
  order(@CurrentCaller() caller: Caller, @RequestKey() key: KeyedRequest, @Body() input: OrderAcceptedDto): Promise<DraftsView> {
    return this.ordering.order(caller, key, input);
  }

  /** Asks for the whole list to be made again; what was entered shows by itself within ten minutes */
  @Post('recompute')
  @HttpCode(202)
  async recomputeAll(): Promise<RecomputeAskedView> {
    await this.recompute.later();
    return viewOf(RecomputeAskedView, { asked: true });
  }

  @Get('lines/:id')
  line(@Param('id', ParseUUIDPipe) id: string): Promise<ReorderLineView> {
    return this.list.line(id);
  }

  /** As proposed, or with another quantity or supplier and the reason for it */
  @Post('lines/:id/accept')
  @HttpCode(200)
  accept(@CurrentCaller() caller: Caller, @Param('id', ParseUUIDPipe) id: string, @Body() input: AcceptDto): Promise<ReorderLineView> {
    return this.deciding.accept(caller, id, input);
  }

  /** Accepts another quantity than proposed, also where nothing was */
  @Post('lines/:id/change')
  @HttpCode(200)
  change(@CurrentCaller() caller: Caller, @Param('id', ParseUUIDPipe) id: string, @Body() input: ChangeDto): Promise<ReorderLineView> {
    return this.deciding.change(caller, id, input);
  }

  /** Not now: until a day, until more is wanted or until there is less */
  @Post('lines/:id/dismiss')
  @HttpCode(200)
  dismiss(@CurrentCaller() caller: Caller, @Param('id', ParseUUIDPipe) id: string, @Body() input: DismissDto): Promise<ReorderLineView> {
    return this.deciding.dismiss(caller, id, input);
  }

  /** Takes back what was decided */
  @Post('lines/:id/reopen')
  @HttpCode(200)
  reopen(@CurrentCaller() caller: Caller, @Param('id', ParseUUIDPipe) id: string): Promise<ReorderLineView> {
    return this.deciding.reopen(caller, id);
  }
}
