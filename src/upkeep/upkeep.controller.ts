import { Controller, Get, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { Allow, AllowSignedIn, type Caller, CurrentCaller } from '../app/index.js';
import { DueList } from './due-list.js';
import { type LoadAheadView, LoadQuery, type TaskOfWeekView, WeekQuery } from './load-ahead.dto.js';
import { LoadAhead } from './load-ahead.js';
import { type DuePageView, DueQuery } from './upkeep.dto.js';

@ApiTags('upkeep')
@Controller()
export class UpkeepController {
  constructor(
    private readonly dues: DueList,
    private readonly load: LoadAhead,
  ) {}

  /** What is due, when and why, most urgent first */
  @Get('dues')
  @AllowSignedIn()
  listDues(@CurrentCaller() caller: Caller, @Query() query: DueQuery): Promise<DuePageView> {
    return this.dues.page(caller, query);
  }

  /** Hours of work in each of the coming 52 weeks */
  @Get('upkeep/load')
  @Allow('manager', 'storekeeper', 'technician')
  readLoad(@Query() query: LoadQuery): Promise<LoadAheadView> {
    return this.load.read(query);
  }

  /** What the hours of one week are made of */
  @Get('upkeep/load/week')
  @Allow('manager', 'storekeeper', 'technician')
  readWeek(@Query() query: WeekQuery): Promise<TaskOfWeekView[]> {
    return this.load.week(query);
  }
}
