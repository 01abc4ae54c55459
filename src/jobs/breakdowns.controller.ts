import { Body, Controller, Get, HttpCode, Param, ParseUUIDPipe, Patch, Post, Query, UseInterceptors } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import {
  Allow,
  AllowSignedIn,
  type Caller,
  CurrentCaller,
  EtagInterceptor,
  type KeyedRequest,
  RequestKey,
  TakesRequestKey,
  TakesVersion,
  VersionSeen,
} from '../app/index.js';
import { Ask } from './breakdown-ask.js';
import { BreakdownEdit } from './breakdown-edit.js';
import { BreakdownHelp } from './breakdown-help.js';
import { BreakdownList } from './breakdown-list.js';
import {
  type AskedView,
  BreakdownDto,
  BreakdownEditDto,
  type BreakdownPageView,
  BreakdownQuery,
  type BreakdownView,
  TakeDto,
  TelephoneDto,
} from './breakdowns.dto.js';

@ApiTags('breakdowns')
@Controller()
@UseInterceptors(EtagInterceptor)
export class BreakdownsController {
  constructor(
    private readonly ask: Ask,
    private readonly breakdowns: BreakdownList,
    private readonly help: BreakdownHelp,
    private readonly edits: BreakdownEdit,
  ) {}

  /** The open ones first, the worst of them first */
  @Get('breakdowns')
  @AllowSignedIn()
  list(@CurrentCaller() caller: Caller, @Query() query: BreakdownQuery): Promise<BreakdownPageView> {
    return this.breakdowns.page(caller, query);
  }

  /** Makes the job and what is known of the breakdown */
  @Post('breakdowns')
  @Allow('manager', 'technician', 'client')
  @TakesRequestKey()
  report(@CurrentCaller() caller: Caller, @RequestKey() key: KeyedRequest, @Body() input: BreakdownDto): Promise<AskedView> {
    return this.ask.for(caller, key, input, input.severity);
  }

  @Get('jobs/:id/breakdown')
  @AllowSignedIn()
  read(@CurrentCaller() caller: Caller, @Param('id', ParseUUIDPipe) id: string): Promise<BreakdownView> {
    return this.breakdowns.read(caller, id);
  }

  @Patch('jobs/:id/breakdown')
  @Allow('manager', 'technician')
  @TakesVersion()
  edit(
    @CurrentCaller() caller: Caller,
    @Param('id', ParseUUIDPipe) id: string,
    @VersionSeen() version: number,
    @Body() change: BreakdownEditDto,
  ): Promise<BreakdownView> {
    return this.edits.edit(caller, id, version, change);
  }

  /** "I have it" */
  @Post('jobs/:id/take')
  @HttpCode(200)
  @Allow('manager', 'technician')
  take(@CurrentCaller() caller: Caller, @Param('id', ParseUUIDPipe) id: string, @Body() { takeOver }: TakeDto): Promise<BreakdownView> {
    return this.help.take(caller, id, takeOver);
  }

  /** Help by telephone, which may end the breakdown without a visit */
  @Post('jobs/:id/telephone')
  @HttpCode(200)
  @Allow('manager', 'technician')
  @TakesRequestKey()
  telephone(
    @CurrentCaller() caller: Caller,
    @Param('id', ParseUUIDPipe) id: string,
    @RequestKey() key: KeyedRequest,
    @Body() input: TelephoneDto,
  ): Promise<BreakdownView> {
    return this.help.telephone(caller, key, id, input);
  }
}
