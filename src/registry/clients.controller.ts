import { Body, Controller, Get, HttpCode, Param, ParseUUIDPipe, Patch, Post, Query, UseInterceptors } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import {
  Allow,
  AllowSignedIn,
  type Caller,
  CurrentCaller,
  EtagInterceptor,
  type KeyedRequest,
  RequestKey,
  TakesRequestKey,
  TakesVersion,
  VersionSeen,
  viewOf,
} from '../app/index.js';
import { ClientDto, ClientEditDto, ClientsPageView, type ClientView } from './clients.dto.js';
import { Clients } from './clients.js';
import { EndDto, RegistryQuery } from './registry.dto.js';

@ApiTags('clients')
@Controller('clients')
@UseInterceptors(EtagInterceptor)
export class ClientsController {
  constructor(private readonly clients: Clients) {}

  @Get()
  @AllowSignedIn()
  async list(@CurrentCaller() caller: Caller, @Query() query: RegistryQuery): Promise<ClientsPageView> {
    return viewOf(ClientsPageView, await this.clients.list(caller, query, {}));
  }

  @Get(':id')
  @AllowSignedIn()
  read(@CurrentCaller() caller: Caller, @Param('id', ParseUUIDPipe) id: string): Promise<ClientView> {
    return this.clients.read(caller, id);
  }

  @Post()
  @Allow('manager')
  @TakesRequestKey()
  create(@CurrentCaller() caller: Caller, @RequestKey() key: KeyedRequest, @Body() input: ClientDto): Promise<ClientView> {
    return this.clients.create(caller, key, input);
  }

  @Patch(':id')
  @Allow('manager')
  @TakesVersion()
  edit(@Param('id', ParseUUIDPipe) id: string, @VersionSeen() version: number, @Body() change: ClientEditDto): Promise<ClientView> {
    return this.clients.edit(id, version, change);
  }

  /** Needs its sites to have ended */
  @Post(':id/end')
  @Allow('manager')
  @HttpCode(204)
  @TakesVersion()
  end(@Param('id', ParseUUIDPipe) id: string, @VersionSeen() version: number, @Body() { on }: EndDto): Promise<void> {
    return this.clients.end(id, version, on);
  }
}
