import { Body, Controller, HttpCode, Post } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { Allow, type Caller, CurrentCaller, type KeyedRequest, RequestKey, TakesRequestKey } from '../app/index.js';
import { HistoryDto, type HistoryView } from './history.dto.js';
import { History } from './history.js';

@ApiTags('jobs')
@Controller('jobs/history')
export class HistoryController {
  constructor(private readonly history: History) {}

  /** Loads older work as finished jobs: all rows or, where one cannot be so, none. Sent again it makes nothing twice */
  @Post()
  @HttpCode(200)
  @Allow('manager')
  @TakesRequestKey()
  load(@CurrentCaller() caller: Caller, @RequestKey() key: KeyedRequest, @Body() input: HistoryDto): Promise<HistoryView> {
    return this.history.load(caller, key, input);
  }
}
