import { Controller, Get, Param, ParseUUIDPipe, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { Allow, AllowSignedIn, type Caller, CurrentCaller } from '../app/index.js';
import { Fleet } from './fleet.js';
import { HistoryQuery, type SkidHistoryView } from './history/history.dto.js';
import { SkidHistory } from './history/skid-history.js';
import { type FleetPageView, FleetQuery, type SkidOverviewView } from './portal.dto.js';
import type { StartView } from './start.dto.js';
import { Start } from './start.js';

@ApiTags('fleet')
@Controller()
export class PortalController {
  constructor(
    private readonly fleet: Fleet,
    private readonly start: Start,
    private readonly history: SkidHistory,
  ) {}

  /** By site: how the skids are, the water they made, the next promised visit, and requests that are not over */
  @Get('start')
  @Allow('client')
  readStart(@CurrentCaller() caller: Caller): Promise<StartView> {
    return this.start.read(caller);
  }

  /** Every skid with its standing and what it needs next, most urgent first */
  @Get('fleet')
  @AllowSignedIn()
  list(@CurrentCaller() caller: Caller, @Query() query: FleetQuery): Promise<FleetPageView> {
    return this.fleet.page(caller, query);
  }

  @Get('skids/:skidId/overview')
  @AllowSignedIn()
  overview(@CurrentCaller() caller: Caller, @Param('skidId', ParseUUIDPipe) skidId: string): Promise<SkidOverviewView> {
    return this.fleet.overview(caller, skidId);
  }

  /** Work, cleans, tests, parts, breakdowns and requests in one list, the latest first */
  @Get('skids/:skidId/history')
  @AllowSignedIn()
  readHistory(@CurrentCaller() caller: Caller, @Param('skidId', ParseUUIDPipe) skidId: string, @Query() query: HistoryQuery): Promise<SkidHistoryView> {
    return this.history.list(caller, skidId, query);
  }
}
