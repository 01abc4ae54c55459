import { Body, Controller, Delete, Get, HttpCode, Param, ParseUUIDPipe, Patch, Post, Query, UseInterceptors } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { Allow, EtagInterceptor, TakesVersion, VersionSeen, viewOf } from '../app/index.js';
import { type InvitationView, PeoplePageView, PeopleQuery, PersonDto, PersonEditDto, type PersonView } from './people.dto.js';
import { People } from './people.js';

@ApiTags('people')
@Controller('people')
@Allow('manager')
@UseInterceptors(EtagInterceptor)
export class PeopleController {
  constructor(private readonly people: People) {}

  @Get()
  async list(@Query() query: PeopleQuery): Promise<PeoplePageView> {
    return viewOf(PeoplePageView, await this.people.list(query));
  }

  @Get(':id')
  read(@Param('id', ParseUUIDPipe) id: string): Promise<PersonView> {
    return this.people.read(id);
  }

  /** Somebody new. The answer has a link, shown this once, with which they set their password within 7 days */
  @Post()
  create(@Body() input: PersonDto): Promise<InvitationView> {
    return this.people.create(input);
  }

  @Patch(':id')
  @TakesVersion()
  edit(@Param('id', ParseUUIDPipe) id: string, @VersionSeen() version: number, @Body() change: PersonEditDto): Promise<PersonView> {
    return this.people.edit(id, version, change);
  }

  /** Another link, in the place of the earlier one, for somebody who lost it or the password */
  @Post(':id/invitation')
  invite(@Param('id', ParseUUIDPipe) id: string): Promise<InvitationView> {
    return this.people.invite(id);
  }

  /** Takes back the link that the person has not used yet. What they have already is left */
  @Delete(':id/invitation')
  @HttpCode(204)
  withdrawInvitation(@Param('id', ParseUUIDPipe) id: string): Promise<void> {
    return this.people.withdrawInvitation(id);
  }

  /** Signs the person out for good. What they did stays */
  @Post(':id/end')
  @HttpCode(204)
  @TakesVersion()
  end(@Param('id', ParseUUIDPipe) id: string, @VersionSeen() version: number): Promise<void> {
    return this.people.end(id, version);
  }
}
