import { Body, Controller, Delete, Get, HttpCode, Param, ParseUUIDPipe, Patch, Post, Query, UseInterceptors } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { Allow, type Caller, CurrentCaller, EtagInterceptor, type KeyedRequest, RequestKey, TakesRequestKey, TakesVersion, VersionSeen } from '../app/index.js';
import { FollowRules } from './follow-rules.js';
import { LoadLibrary } from './load-library.js';
import { RuleSetVersions } from './rule-set-versions.js';
import {
  EndRuleSetDto,
  FollowDto,
  type FollowedView,
  type FollowPreviewView,
  type LibraryLoadedView,
  RuleSetDto,
  RuleSetEditDto,
  RuleSetsQuery,
  type RuleSetVersionView,
  type RuleSetView,
  VersionNoteDto,
} from './rule-sets.dto.js';
import { RuleSets } from './rule-sets.js';

@ApiTags('upkeep')
@Controller('rule-sets')
@UseInterceptors(EtagInterceptor)
export class RuleSetsController {
  constructor(
    private readonly sets: RuleSets,
    private readonly versions: RuleSetVersions,
    private readonly following: FollowRules,
    private readonly library: LoadLibrary,
  ) {}

  @Get()
  @Allow('manager', 'storekeeper', 'technician')
  list(@Query() { ended }: RuleSetsQuery): Promise<RuleSetView[]> {
    return this.sets.list(ended === 'true');
  }

  @Get(':id')
  @Allow('manager', 'storekeeper', 'technician')
  read(@Param('id', ParseUUIDPipe) id: string): Promise<RuleSetView> {
    return this.sets.read(id);
  }

  /** With an empty draft as its first version */
  @Post()
  @Allow('manager')
  @TakesRequestKey()
  create(@CurrentCaller() caller: Caller, @RequestKey() key: KeyedRequest, @Body() input: RuleSetDto): Promise<RuleSetView> {
    return this.sets.create(caller, key, input);
  }

  @Patch(':id')
  @Allow('manager')
  @TakesVersion()
  edit(@Param('id', ParseUUIDPipe) id: string, @VersionSeen() version: number, @Body() change: RuleSetEditDto): Promise<RuleSetView> {
    return this.sets.edit(id, version, change);
  }

  @Post(':id/end')
  @Allow('manager')
  @HttpCode(204)
  @TakesVersion()
  end(@Param('id', ParseUUIDPipe) id: string, @VersionSeen() version: number, @Body() { on }: EndRuleSetDto): Promise<void> {
    return this.sets.end(id, version, on);
  }

  /** The starting library of rules and task sheets for a UF skid, as a published set; what is there already stays as it is */
  @Post('library')
  @Allow('manager')
  @HttpCode(200)
  loadLibrary(@CurrentCaller() caller: Caller): Promise<LibraryLoadedView> {
    return this.library.load(caller);
  }

  /** How the dues of these skids would change if they followed no rule set; nothing is changed */
  @Post('leave/preview')
  @Allow('manager')
  @HttpCode(200)
  previewLeaving(@Body() { skidIds }: FollowDto): Promise<FollowPreviewView> {
    return this.following.previewLeaving(skidIds);
  }

  /** Lets these skids follow no rule set any more; rules of a skid alone go on */
  @Post('leave')
  @Allow('manager')
  @HttpCode(200)
  leave(@CurrentCaller() caller: Caller, @Body() { skidIds }: FollowDto): Promise<FollowedView> {
    return this.following.leave(caller, skidIds);
  }

  /** A draft as a copy of the latest version */
  @Post(':id/versions')
  @Allow('manager')
  @TakesRequestKey()
  draft(
    @CurrentCaller() caller: Caller,
    @RequestKey() key: KeyedRequest,
    @Param('id', ParseUUIDPipe) id: string,
    @Body() { note }: VersionNoteDto,
  ): Promise<RuleSetVersionView> {
    return this.versions.draft(caller, key, id, note);
  }

  /** A version with its rules, what it changes, and who follows it */
  @Get('versions/:versionId')
  @Allow('manager', 'storekeeper', 'technician')
  readVersion(@Param('versionId', ParseUUIDPipe) versionId: string): Promise<RuleSetVersionView> {
    return this.versions.read(versionId);
  }

  /** Makes a draft final, so that skids can follow it */
  @Post('versions/:versionId/publish')
  @Allow('manager')
  @HttpCode(200)
  publish(
    @CurrentCaller() caller: Caller,
    @Param('versionId', ParseUUIDPipe) versionId: string,
    @Body() { note }: VersionNoteDto,
  ): Promise<RuleSetVersionView> {
    return this.versions.publish(caller, versionId, note);
  }

  /** Throws a draft away */
  @Delete('versions/:versionId')
  @Allow('manager')
  @HttpCode(204)
  discard(@Param('versionId', ParseUUIDPipe) versionId: string): Promise<void> {
    return this.versions.discard(versionId);
  }

  /** How the dues of these skids would change; nothing is changed */
  @Post('versions/:versionId/preview')
  @Allow('manager')
  @HttpCode(200)
  preview(@Param('versionId', ParseUUIDPipe) versionId: string, @Body() { skidIds }: FollowDto): Promise<FollowPreviewView> {
    return this.following.preview(versionId, skidIds);
  }

  /** Lets these skids follow the version */
  @Post('versions/:versionId/skids')
  @Allow('manager')
  @HttpCode(200)
  follow(@CurrentCaller() caller: Caller, @Param('versionId', ParseUUIDPipe) versionId: string, @Body() { skidIds }: FollowDto): Promise<FollowedView> {
    return this.following.move(caller, versionId, skidIds);
  }
}
