import { Body, Controller, Get, Param, ParseUUIDPipe, Post, Query, Res } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { FastifyReply } from 'fastify';
import { Allow, type Caller, CurrentCaller } from '../app/index.js';
import { sendTable } from './csv/table-file.js';
import { PostStock } from './post-stock.js';
import {
  MovesQuery,
  ReversalDto,
  type StockMovesPageView,
  type StockPageView,
  StockPostDto,
  type StockPostView,
  StockQuery,
  StockTableQuery,
} from './stock.dto.js';
import { StockList } from './stock-list.js';

const STOCK_COLUMNS = ['place', 'item', 'name', 'unit', 'lot', 'serial number', 'expires on', 'preserve by', 'held', 'owner', 'owner name', 'on hand'] as const;

@ApiTags('stock')
@Controller()
@Allow('manager', 'storekeeper', 'technician')
export class StockController {
  constructor(
    private readonly list: StockList,
    private readonly posting: PostStock,
  ) {}

  /** What lies where */
  @Get('stock')
  stock(@Query() query: StockQuery): Promise<StockPageView> {
    return this.list.stock(query);
  }

  /** The same as a table, line by line */
  @Get('stock.csv')
  async table(@Query() query: StockTableQuery, @Res() reply: FastifyReply): Promise<void> {
    sendTable(reply, 'stock', STOCK_COLUMNS, await this.list.table(query));
  }

  /** The ledger, the latest entry first */
  @Get('stock/moves')
  moves(@Query() query: MovesQuery): Promise<StockMovesPageView> {
    return this.list.moves(query);
  }

  @Get('stock/posts/:id')
  readPost(@Param('id', ParseUUIDPipe) id: string): Promise<StockPostView> {
    return this.list.post(id);
  }

  /** Moves stock; a technician, to and from their own van */
  @Post('stock/posts')
  post(@CurrentCaller() caller: Caller, @Body() input: StockPostDto): Promise<StockPostView> {
    return this.posting.post(caller, input);
  }

  /** Takes a post back whole */
  @Post('stock/posts/:id/reverse')
  @Allow('manager', 'storekeeper')
  reverse(@CurrentCaller() caller: Caller, @Param('id', ParseUUIDPipe) id: string, @Body() input: ReversalDto): Promise<StockPostView> {
    return this.posting.reverse(caller, id, input);
  }
}
