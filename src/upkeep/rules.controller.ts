import { Body, Controller, Delete, Get, HttpCode, Param, ParseUUIDPipe, Post, Put, Query, UseInterceptors } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { Allow, type Caller, CurrentCaller, EtagInterceptor, type KeyedRequest, RequestKey, TakesRequestKey, TakesVersion, VersionSeen } from '../app/index.js';
import { RelubricationQuery, type RelubricationView } from './relubrication.dto.js';
import { relubrication } from './relubrication.js';
import { EndRuleDto, RuleContentDto, RuleDto, type RuleView } from './rules.dto.js';
import { Rules } from './rules.js';
import { OverrideDto, type OverrideView, type SkidRulesView } from './skid-rules.dto.js';
import { SkidRules } from './skid-rules.js';

@ApiTags('upkeep')
@Controller()
@UseInterceptors(EtagInterceptor)
export class RulesController {
  constructor(
    private readonly rules: Rules,
    private readonly ofSkid: SkidRules,
  ) {}

  /** Hours after which a rolling bearing is greased again, as a start for a rule */
  @Get('rules/relubrication')
  @Allow('manager', 'storekeeper', 'technician')
  relubrication(@Query() bearing: RelubricationQuery): RelubricationView {
    return relubrication(bearing);
  }

  @Get('rules/:id')
  @Allow('manager', 'storekeeper', 'technician')
  read(@Param('id', ParseUUIDPipe) id: string): Promise<RuleView> {
    return this.rules.read(id);
  }

  /** A rule of a draft, or of one skid alone */
  @Post('rules')
  @Allow('manager')
  @TakesRequestKey()
  create(@RequestKey() key: KeyedRequest, @Body() input: RuleDto): Promise<RuleView> {
    return this.rules.create(key, input);
  }

  @Put('rules/:id')
  @Allow('manager')
  @TakesVersion()
  edit(@Param('id', ParseUUIDPipe) id: string, @VersionSeen() version: number, @Body() input: RuleContentDto): Promise<RuleView> {
    return this.rules.edit(id, version, input);
  }

  /** Takes a rule out of a draft */
  @Delete('rules/:id')
  @Allow('manager')
  @HttpCode(204)
  @TakesVersion()
  remove(@Param('id', ParseUUIDPipe) id: string, @VersionSeen() version: number): Promise<void> {
    return this.rules.remove(id, version);
  }

  /** Ends a rule of one skid */
  @Post('rules/:id/end')
  @Allow('manager')
  @HttpCode(204)
  @TakesVersion()
  end(@Param('id', ParseUUIDPipe) id: string, @VersionSeen() version: number, @Body() { on }: EndRuleDto): Promise<void> {
    return this.rules.end(id, version, on);
  }

  /** The rules that hold at a skid, each with where it comes from; the version that the skid follows, and whether there is a newer one */
  @Get('skids/:id/rules')
  @Allow('manager', 'storekeeper', 'technician')
  readOfSkid(@Param('id', ParseUUIDPipe) id: string): Promise<SkidRulesView> {
    return this.ofSkid.read(id);
  }

  /** Other limits for a rule at this skid, with the reason */
  @Post('skids/:id/rules/overrides')
  @Allow('manager')
  @TakesRequestKey()
  override(
    @CurrentCaller() caller: Caller,
    @RequestKey() key: KeyedRequest,
    @Param('id', ParseUUIDPipe) id: string,
    @Body() input: OverrideDto,
  ): Promise<OverrideView> {
    return this.ofSkid.override(caller, key, id, input);
  }

  @Post('skids/:id/rules/overrides/:overrideId/end')
  @Allow('manager')
  @HttpCode(204)
  endOverride(@CurrentCaller() caller: Caller, @Param('id', ParseUUIDPipe) id: string, @Param('overrideId', ParseUUIDPipe) overrideId: string): Promise<void> {
    return this.ofSkid.end(caller, id, overrideId);
  }
}
