import { Body, Controller, Get, HttpCode, Param, ParseUUIDPipe, Post, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { Allow, type Caller, CurrentCaller, type KeyedRequest, RequestKey, TakesRequestKey } from '../../app/index.js';
import { CloseCountDto, type CountDetailView, CountDto, type CountsPageView, CountsQuery, LinesQuery, LooksDto } from './counts.dto.js';
import { Counts } from './counts.js';

@ApiTags('stock')
@Controller('counts')
@Allow('manager', 'storekeeper', 'technician')
export class CountsController {
  constructor(private readonly counts: Counts) {}

  /** The latest begun first */
  @Get()
  list(@Query() query: CountsQuery): Promise<CountsPageView> {
    return this.counts.list(query);
  }

  /** Its lines, all or of one page */
  @Get(':id')
  read(@Param('id', ParseUUIDPipe) id: string, @Query() query: LinesQuery): Promise<CountDetailView> {
    return this.counts.read(id, query);
  }

  /** Begins to count a place; a technician, their own van */
  @Post()
  @TakesRequestKey()
  start(@CurrentCaller() caller: Caller, @RequestKey() key: KeyedRequest, @Body() input: CountDto): Promise<CountDetailView> {
    return this.counts.start(caller, key, input);
  }

  /** What was found */
  @Post(':id/looks')
  @HttpCode(200)
  @TakesRequestKey()
  look(
    @CurrentCaller() caller: Caller,
    @RequestKey() key: KeyedRequest,
    @Param('id', ParseUUIDPipe) id: string,
    @Body() input: LooksDto,
  ): Promise<CountDetailView> {
    return this.counts.look(caller, key, id, input);
  }

  /** Enters what two looks agree upon, and ends the count */
  @Post(':id/close')
  @HttpCode(200)
  close(@CurrentCaller() caller: Caller, @Param('id', ParseUUIDPipe) id: string, @Body() input: CloseCountDto): Promise<CountDetailView> {
    return this.counts.close(caller, id, input);
  }

  /** Ends the count without changing anything */
  @Post(':id/drop')
  @HttpCode(200)
  drop(@CurrentCaller() caller: Caller, @Param('id', ParseUUIDPipe) id: string): Promise<CountDetailView> {
    return this.counts.drop(caller, id);
  }
}
