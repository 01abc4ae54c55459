import { Body, Controller, Get, Headers, HttpCode, Param, ParseUUIDPipe, Post, Put, Query, Res } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { FastifyReply } from 'fastify';
import { Allow, AllowSignedIn, type Caller, CurrentCaller, etagOf, versionSeen } from '../app/index.js';
import { DueList } from './due-list.js';
import { EndRuleDto, RuleDto, type RuleView } from './rules.dto.js';
import { Rules } from './rules.js';
import { type DuePageView, DueQuery } from './upkeep.dto.js';

@ApiTags('upkeep')
@Controller()
export class UpkeepController {
  constructor(
    private readonly dues: DueList,
    private readonly rules: Rules,
  ) {}

  /** What is due, when and why, most urgent first */
  @Get('dues')
  @AllowSignedIn()
  listDues(@CurrentCaller() caller: Caller, @Query() query: DueQuery): Promise<DuePageView> {
    return this.dues.page(caller, query);
  }

  /** The rules that hold, or those that can touch one skid */
  @Get('upkeep-rules')
  @Allow('manager', 'storekeeper', 'technician')
  listRules(@Query('skidId', new ParseUUIDPipe({ optional: true })) skidId?: string): Promise<RuleView[]> {
    return this.rules.list(skidId);
  }

  @Get('upkeep-rules/:id')
  @Allow('manager', 'storekeeper', 'technician')
  async readRule(@Param('id', ParseUUIDPipe) id: string, @Res({ passthrough: true }) reply: FastifyReply): Promise<RuleView> {
    return tagged(reply, await this.rules.read(id));
  }

  @Post('upkeep-rules')
  @Allow('manager')
  createRule(@Body() input: RuleDto): Promise<RuleView> {
    return this.rules.create(input);
  }

  @Put('upkeep-rules/:id')
  @Allow('manager')
  async editRule(
    @Param('id', ParseUUIDPipe) id: string,
    @Headers('if-match') ifMatch: string | undefined,
    @Body() input: RuleDto,
    @Res({ passthrough: true }) reply: FastifyReply,
  ): Promise<RuleView> {
    return tagged(reply, await this.rules.edit(id, versionSeen(ifMatch), input));
  }

  @Post('upkeep-rules/:id/end')
  @Allow('manager')
  @HttpCode(204)
  endRule(@Param('id', ParseUUIDPipe) id: string, @Headers('if-match') ifMatch: string | undefined, @Body() input: EndRuleDto): Promise<void> {
    return this.rules.end(id, versionSeen(ifMatch), input.on);
  }
}

function tagged(reply: FastifyReply, rule: RuleView): RuleView {
  void reply.header('etag', etagOf(rule.version));
  return rule;
}
