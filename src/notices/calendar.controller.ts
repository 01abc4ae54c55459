import { Body, Controller, Delete, Get, HttpCode, Param, ParseUUIDPipe, Post, Res } from '@nestjs/common';
import { ApiOkResponse, ApiTags } from '@nestjs/swagger';
import type { FastifyReply } from 'fastify';
import { AllowAnyone, AllowSignedIn, type Caller, CurrentCaller } from '../app/index.js';
import { CalendarAddressDto, type CalendarAddressesView, type NewCalendarAddressView } from './calendar.dto.js';
import { Calendars } from './calendars.js';
import { NoSuchCalendar } from './notices.errors.js';

@ApiTags('calendars')
@Controller()
export class CalendarController {
  constructor(private readonly calendars: Calendars) {}

  /** The addresses that the caller gave to calendar programs */
  @Get('me/calendar-addresses')
  @AllowSignedIn()
  list(@CurrentCaller() caller: Caller): Promise<CalendarAddressesView> {
    return this.calendars.list(caller);
  }

  /** An address for one calendar program, shown this once */
  @Post('me/calendar-addresses')
  @AllowSignedIn()
  create(@CurrentCaller() caller: Caller, @Body() input: CalendarAddressDto): Promise<NewCalendarAddressView> {
    return this.calendars.create(caller, input);
  }

  /** Withdraws the address: from now on it shows nothing */
  @Delete('me/calendar-addresses/:id')
  @AllowSignedIn()
  @HttpCode(204)
  withdraw(@CurrentCaller() caller: Caller, @Param('id', ParseUUIDPipe) id: string): Promise<void> {
    return this.calendars.withdraw(caller, id);
  }

  /** The visits of the person whose address it is, as iCalendar (RFC 5545): a technician's own, all of them for managers and storekeepers, those promised to a client */
  @Get('calendar/:file')
  @AllowAnyone()
  @ApiOkResponse({ content: { 'text/calendar': {} } })
  async read(@Param('file') file: string, @Res() reply: FastifyReply): Promise<void> {
    const calendar = await this.calendars.read(file);
    if (calendar === null) throw new NoSuchCalendar('There is no calendar at this address, or it was withdrawn. Make a new address in Skidkeep under Notices');
    void reply.header('content-type', 'text/calendar; charset=utf-8').header('content-disposition', 'inline; filename="skidkeep.ics"').send(calendar);
  }
}
