import { Body, Controller, Get, Param, ParseUUIDPipe, Patch, Post, Query, UseInterceptors } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { Allow, type Caller, CurrentCaller, EtagInterceptor, TakesVersion, VersionSeen } from '../app/index.js';
import { CreateProfileDto, EditProfileDto, type ProfilePageView, ProfileQuery, type ProfileView } from './log-profiles.dto.js';
import { LogProfiles } from './log-profiles.js';

@ApiTags('log profiles')
@Controller('log-profiles')
@UseInterceptors(EtagInterceptor)
export class LogProfilesController {
  constructor(private readonly profiles: LogProfiles) {}

  @Get()
  @Allow('manager', 'storekeeper', 'technician')
  list(@CurrentCaller() caller: Caller, @Query() query: ProfileQuery): Promise<ProfilePageView> {
    return this.profiles.list(caller, query);
  }

  @Get(':id')
  @Allow('manager', 'storekeeper', 'technician')
  read(@Param('id', ParseUUIDPipe) id: string): Promise<ProfileView> {
    return this.profiles.read(id);
  }

  @Post()
  @Allow('manager', 'technician')
  create(@CurrentCaller() caller: Caller, @Body() input: CreateProfileDto): Promise<ProfileView> {
    return this.profiles.create(caller, input);
  }

  @Patch(':id')
  @Allow('manager', 'technician')
  @TakesVersion()
  edit(@Param('id', ParseUUIDPipe) id: string, @VersionSeen() version: number, @Body() input: EditProfileDto): Promise<ProfileView> {
    return this.profiles.edit(id, version, input);
  }
}
