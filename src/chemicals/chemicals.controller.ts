import { Body, Controller, Get, HttpCode, Param, ParseUUIDPipe, Patch, Post, Query, Res, UseInterceptors } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { FastifyReply } from 'fastify';
import {
  Allow,
  AllowSignedIn,
  type Caller,
  CurrentCaller,
  EtagInterceptor,
  given,
  type KeyedRequest,
  PageQuery,
  RequestKey,
  TakesRequestKey,
  TakesVersion,
  VersionSeen,
  viewOf,
} from '../app/index.js';
import type { LoadReportView } from '../intake/index.js';
import { EndDto, RegistryQuery } from '../registry/index.js';
import { sendTable } from '../store/index.js';
import { type TankBooksView, type TankCoverPageView, TankCoverQuery } from './chemicals.dto.js';
import { CoverList } from './cover-list.js';
import { COVER_COLUMNS, toTableRow } from './cover-table.js';
import { Announce } from './deliveries/announce.js';
import { Deliver } from './deliveries/deliver.js';
import { AnnouncementDto, type AnnouncementView, DeliveryDto } from './deliveries/deliveries.dto.js';
import { AssayDto, type AssaysPageView, type AssayView } from './records/assays.dto.js';
import { Assays } from './records/assays.js';
import { TankUserDto, TankUserEditDto, TankUsersPageView, type TankUserView } from './records/tank-users.dto.js';
import { TankUsers } from './records/tank-users.js';
import { TankBooks } from './tank-books.js';

/** What is in the tanks, who draws from them, and what comes into them. */
@ApiTags('chemicals')
@Controller()
@UseInterceptors(EtagInterceptor)
export class ChemicalsController {
  constructor(
    private readonly covers: CoverList,
    private readonly books: TankBooks,
    private readonly users: TankUsers,
    private readonly assays: Assays,
    private readonly deliver: Deliver,
    private readonly announce: Announce,
  ) {}

  /** Which chemical runs out when, and why; the first first */
  @Get('tanks/cover')
  @AllowSignedIn()
  list(@CurrentCaller() caller: Caller, @Query() query: TankCoverQuery): Promise<TankCoverPageView> {
    return this.covers.page(caller, query);
  }

  /** The same as a table */
  @Get('tanks/cover.csv')
  @AllowSignedIn()
  async table(@CurrentCaller() caller: Caller, @Query() query: TankCoverQuery, @Res() reply: FastifyReply): Promise<void> {
    sendTable(reply, 'chemicals', COVER_COLUMNS, (await this.covers.all(caller, query)).map(toTableRow));
  }

  /** The running balance of a tank over the last year, what it means, and what came in */
  @Get('tanks/:tankId/books')
  @AllowSignedIn()
  readBooks(@CurrentCaller() caller: Caller, @Param('tankId', ParseUUIDPipe) tankId: string): Promise<TankBooksView> {
    return this.books.read(caller, tankId);
  }

  @Post('tanks/:tankId/deliveries')
  @HttpCode(200)
  @Allow('manager', 'storekeeper', 'technician', 'client')
  @TakesRequestKey()
  delivery(
    @CurrentCaller() caller: Caller,
    @Param('tankId', ParseUUIDPipe) tankId: string,
    @Body() input: DeliveryDto,
    @RequestKey() key: KeyedRequest,
  ): Promise<LoadReportView> {
    return this.deliver.into(caller, tankId, input, key);
  }

  /** Says what is on its way to a tank that the client fills */
  @Post('tanks/:tankId/announcements')
  @Allow('manager', 'storekeeper', 'client')
  @TakesRequestKey()
  announced(
    @CurrentCaller() caller: Caller,
    @Param('tankId', ParseUUIDPipe) tankId: string,
    @Body() input: AnnouncementDto,
    @RequestKey() key: KeyedRequest,
  ): Promise<AnnouncementView> {
    return this.announce.for(caller, tankId, key, input);
  }

  @Post('announcements/:id/call-off')
  @HttpCode(200)
  @Allow('manager', 'storekeeper', 'client')
  @TakesVersion()
  callOff(@CurrentCaller() caller: Caller, @Param('id', ParseUUIDPipe) id: string, @VersionSeen() version: number): Promise<AnnouncementView> {
    return this.announce.callOff(caller, id, version);
  }

  @Get('tanks/:tankId/assays')
  @AllowSignedIn()
  listAssays(@CurrentCaller() caller: Caller, @Param('tankId', ParseUUIDPipe) tankId: string, @Query() query: PageQuery): Promise<AssaysPageView> {
    return this.assays.list(caller, tankId, query);
  }

  @Post('tanks/:tankId/assays')
  @Allow('manager', 'storekeeper', 'technician', 'client')
  @TakesRequestKey()
  assay(
    @CurrentCaller() caller: Caller,
    @Param('tankId', ParseUUIDPipe) tankId: string,
    @Body() input: AssayDto,
    @RequestKey() key: KeyedRequest,
  ): Promise<AssayView> {
    return this.assays.enter(caller, tankId, key, input);
  }

  /** Who draws from a tank by a recipe of its own, or outside the skids */
  @Get('tanks/:tankId/users')
  @AllowSignedIn()
  async listUsers(@CurrentCaller() caller: Caller, @Param('tankId', ParseUUIDPipe) tankId: string, @Query() query: RegistryQuery): Promise<TankUsersPageView> {
    return viewOf(TankUsersPageView, await this.users.list(caller, query, await this.users.ofTank(caller, tankId)));
  }

  @Post('tanks/:tankId/users')
  @Allow('manager')
  @TakesRequestKey()
  addUser(
    @CurrentCaller() caller: Caller,
    @Param('tankId', ParseUUIDPipe) tankId: string,
    @RequestKey() key: KeyedRequest,
    @Body() input: TankUserDto,
  ): Promise<TankUserView> {
    return this.users.create(caller, key, { ...given(input), name: input.name, tankId });
  }

  @Patch('tank-users/:id')
  @Allow('manager')
  @TakesVersion()
  editUser(@Param('id', ParseUUIDPipe) id: string, @VersionSeen() version: number, @Body() change: TankUserEditDto): Promise<TankUserView> {
    return this.users.edit(id, version, change);
  }

  @Post('tank-users/:id/end')
  @Allow('manager')
  @HttpCode(204)
  @TakesVersion()
  endUser(@Param('id', ParseUUIDPipe) id: string, @VersionSeen() version: number, @Body() { on }: EndDto): Promise<void> {
    return this.users.end(id, version, on);
  }
}
