import { Body, Controller, Delete, Get, HttpCode, Param, ParseUUIDPipe, Put, Query, UseInterceptors } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { Allow, type Caller, CurrentCaller, EtagInterceptor, TakesVersion, VersionSeen } from '../../app/index.js';
import {
  type TravelFitView,
  TravelOverrideDto,
  type TravelOverrideView,
  TravelQuery,
  TravelRegionDto,
  type TravelRegionView,
  type TravelServiceView,
  type TravelView,
} from './travel.dto.js';
import { Travel } from './travel.js';
import { TravelFit } from './travel-fit.js';
import { TravelSettings } from './travel-settings.js';

@ApiTags('planning')
@Controller('planning/travel')
@UseInterceptors(EtagInterceptor)
@Allow('manager')
export class TravelController {
  constructor(
    private readonly travel: Travel,
    private readonly settings: TravelSettings,
    private readonly refitting: TravelFit,
  ) {}

  /** How long the way between two places takes, and where that comes from */
  @Get()
  way(@Query() query: TravelQuery): Promise<TravelView> {
    return this.travel.way(query);
  }

  /** Whether the service that knows roads answers */
  @Get('service')
  service(): TravelServiceView {
    return this.travel.service();
  }

  /** Roads by region; that of everywhere else comes first */
  @Get('regions')
  regions(): Promise<TravelRegionView[]> {
    return this.settings.regions();
  }

  /** Makes or replaces a region, by an id of the caller’s making; "0" is the version of a new one */
  @Put('regions/:id')
  @TakesVersion()
  putRegion(@Param('id', ParseUUIDPipe) id: string, @VersionSeen() version: number, @Body() input: TravelRegionDto): Promise<TravelRegionView> {
    return this.settings.putRegion(id, version, input);
  }

  @Delete('regions/:id')
  @HttpCode(204)
  endRegion(@Param('id', ParseUUIDPipe) id: string): Promise<void> {
    return this.settings.endRegion(id);
  }

  /** What trips on job sheets ask of the roads of each region: a suggestion, which changes nothing */
  @Get('fit')
  fit(): Promise<TravelFitView[]> {
    return this.refitting.read();
  }

  /** Ways that were set by hand */
  @Get('overrides')
  overrides(): Promise<TravelOverrideView[]> {
    return this.settings.overrides();
  }

  /** Sets or replaces a way, by an id of the caller’s making; "0" is the version of a new one */
  @Put('overrides/:id')
  @TakesVersion()
  putOverride(
    @CurrentCaller() caller: Caller,
    @Param('id', ParseUUIDPipe) id: string,
    @VersionSeen() version: number,
    @Body() input: TravelOverrideDto,
  ): Promise<TravelOverrideView> {
    return this.settings.putOverride(caller, id, version, input);
  }

  @Delete('overrides/:id')
  @HttpCode(204)
  endOverride(@Param('id', ParseUUIDPipe) id: string): Promise<void> {
    return this.settings.endOverride(id);
  }
}
