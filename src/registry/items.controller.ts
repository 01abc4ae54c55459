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
import { ItemDto, ItemEditDto, ItemsPageView, ItemsQuery, type ItemView } from './items.dto.js';
import { Items } from './items.js';
import { EndDto } from './registry.dto.js';

@ApiTags('items')
@Controller('items')
@UseInterceptors(EtagInterceptor)
export class ItemsController {
  constructor(private readonly items: Items) {}

  @Get()
  @AllowSignedIn()
  async list(@CurrentCaller() caller: Caller, @Query() query: ItemsQuery): Promise<ItemsPageView> {
    const { kind } = query;
    return viewOf(ItemsPageView, await this.items.list(caller, query, given({ kind })));
  }

  @Get(':id')
  @AllowSignedIn()
  read(@CurrentCaller() caller: Caller, @Param('id', ParseUUIDPipe) id: string): Promise<ItemView> {
    return this.items.read(caller, id);
  }

  @Post()
  @Allow('manager', 'storekeeper')
  @TakesRequestKey()
  create(@CurrentCaller() caller: Caller, @RequestKey() key: KeyedRequest, @Body() input: ItemDto): Promise<ItemView> {
    return this.items.create(caller, key, input);
  }

  @Patch(':id')
  @Allow('manager', 'storekeeper')
  @TakesVersion()
  edit(@Param('id', ParseUUIDPipe) id: string, @VersionSeen() version: number, @Body() change: ItemEditDto): Promise<ItemView> {
    return this.items.edit(id, version, change);
  }

  @Post(':id/end')
  @Allow('manager', 'storekeeper')
  @HttpCode(204)
  @TakesVersion()
  end(@Param('id', ParseUUIDPipe) id: string, @VersionSeen() version: number, @Body() { on }: EndDto): Promise<void> {
    return this.items.end(id, version, on);
  }
}
