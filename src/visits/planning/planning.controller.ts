import { Body, Controller, Get, Param, ParseUUIDPipe, Put, UseInterceptors } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { Allow, EtagInterceptor, TakesVersion, VersionSeen } from '../../app/index.js';
import { PersonPlanningDto, type PersonPlanningView, SitePlanningDto, type SitePlanningView } from './planning.dto.js';
import { PlanningData } from './planning-data.js';

@ApiTags('planning')
@Controller('planning')
@UseInterceptors(EtagInterceptor)
@Allow('manager')
export class PlanningController {
  constructor(private readonly data: PlanningData) {}

  /** Where people start from, when they work, what they may do and when they are away */
  @Get('people')
  people(): Promise<PersonPlanningView[]> {
    return this.data.people();
  }

  /** Replaces what planning knows of a person; "0" is the version where nothing was entered */
  @Put('people/:personId')
  @TakesVersion()
  replacePerson(@Param('personId', ParseUUIDPipe) id: string, @VersionSeen() version: number, @Body() input: PersonPlanningDto): Promise<PersonPlanningView> {
    return this.data.replacePerson(id, version, input);
  }

  /** When people are let in at each site */
  @Get('sites')
  sites(): Promise<SitePlanningView[]> {
    return this.data.sites();
  }

  /** Replaces what planning knows of a site; "0" is the version where nothing was entered */
  @Put('sites/:siteId')
  @TakesVersion()
  replaceSite(@Param('siteId', ParseUUIDPipe) id: string, @VersionSeen() version: number, @Body() input: SitePlanningDto): Promise<SitePlanningView> {
    return this.data.replaceSite(id, version, input);
  }
}
