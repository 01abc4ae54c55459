import { Body, Controller, Get, HttpCode, Param, ParseUUIDPipe, Patch, Post, Query, UseInterceptors } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import {
  Allow,
  AllowSignedIn,
  type Caller,
  CurrentCaller,
  EtagInterceptor,
  given,
  type KeyedRequest,
  RequestKey,
  TakesRequestKey,
  TakesVersion,
  VersionSeen,
  viewOf,
} from '../app/index.js';
import { EndDto } from './registry.dto.js';
import { SiteDto, SiteEditDto, SitesPageView, SitesQuery, type SiteView } from './sites.dto.js';
import { Sites } from './sites.js';

@ApiTags('sites')
@Controller('sites')
@UseInterceptors(EtagInterceptor)
export class SitesController {
  constructor(private readonly sites: Sites) {}

  @Get()
  @AllowSignedIn()
  async list(@CurrentCaller() caller: Caller, @Query() query: SitesQuery): Promise<SitesPageView> {
    const { clientId } = query;
    return viewOf(SitesPageView, await this.sites.list(caller, query, given({ clientId })));
  }

  @Get(':id')
  @AllowSignedIn()
  read(@CurrentCaller() caller: Caller, @Param('id', ParseUUIDPipe) id: string): Promise<SiteView> {
    return this.sites.read(caller, id);
  }

  @Post()
  @Allow('manager')
  @TakesRequestKey()
  create(@CurrentCaller() caller: Caller, @RequestKey() key: KeyedRequest, @Body() input: SiteDto): Promise<SiteView> {
    return this.sites.create(caller, key, input);
  }

  @Patch(':id')
  @Allow('manager')
  @TakesVersion()
  edit(@Param('id', ParseUUIDPipe) id: string, @VersionSeen() version: number, @Body() change: SiteEditDto): Promise<SiteView> {
    return this.sites.edit(id, version, change);
  }

  /** Needs its skids to have ended */
  @Post(':id/end')
  @Allow('manager')
  @HttpCode(204)
  @TakesVersion()
  end(@Param('id', ParseUUIDPipe) id: string, @VersionSeen() version: number, @Body() { on }: EndDto): Promise<void> {
    return this.sites.end(id, version, on);
  }
}
