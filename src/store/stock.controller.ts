import { Body, Controller, Get, Param, ParseUUIDPipe, Post, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { Allow, type Caller, CurrentCaller } from '../app/index.js';
import { PostStock } from './post-stock.js';
import { MovesQuery, ReversalDto, type StockMovesPageView, type StockPageView, StockPostDto, type StockPostView, StockQuery } from './stock.dto.js';
import { StockList } from './stock-list.js';

@ApiTags('stock')
@Controller('stock')
@Allow('manager', 'storekeeper', 'technician')
export class StockController {
  constructor(
    private readonly list: StockList,
    private readonly posting: PostStock,
  ) {}

  /** What lies where */
  @Get()
  stock(@Query() query: StockQuery): Promise<StockPageView> {
    return this.list.stock(query);
  }

  /** The ledger, the latest entry first */
  @Get('moves')
  moves(@Query() query: MovesQuery): Promise<StockMovesPageView> {
    return this.list.moves(query);
  }

  @Get('posts/:id')
  readPost(@Param('id', ParseUUIDPipe) id: string): Promise<StockPostView> {
    return this.list.post(id);
  }

  /** Moves stock; a technician, to and from their own van */
  @Post('posts')
  post(@CurrentCaller() caller: Caller, @Body() input: StockPostDto): Promise<StockPostView> {
    return this.posting.post(caller, input);
  }

  /** Takes a post back whole */
  @Post('posts/:id/reverse')
  @Allow('manager', 'storekeeper')
  reverse(@CurrentCaller() caller: Caller, @Param('id', ParseUUIDPipe) id: string, @Body() input: ReversalDto): Promise<StockPostView> {
    return this.posting.reverse(caller, id, input);
  }
}
