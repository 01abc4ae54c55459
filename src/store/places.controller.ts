import { Body, Controller, Get, HttpCode, Param, ParseUUIDPipe, Patch, Post, Query, UseInterceptors } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import {
  Allow,
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
import { EndDto } from '../registry/index.js';
import { type PlaceCautionsView, PlaceDto, PlaceEditDto, PlacesPageView, PlacesQuery, type PlaceView } from './places.dto.js';
import { Places } from './places.js';

@ApiTags('places')
@Controller('places')
@UseInterceptors(EtagInterceptor)
@Allow('manager', 'storekeeper')
export class PlacesController {
  constructor(private readonly places: Places) {}

  /** Stores, vans and places at sites */
  @Get()
  @Allow('manager', 'storekeeper', 'technician')
  async list(@CurrentCaller() caller: Caller, @Query() query: PlacesQuery): Promise<PlacesPageView> {
    const { kind, personId, siteId } = query;
    return viewOf(PlacesPageView, await this.places.list(caller, query, given({ kind, personId, siteId })));
  }

  @Get(':id')
  @Allow('manager', 'storekeeper', 'technician')
  read(@CurrentCaller() caller: Caller, @Param('id', ParseUUIDPipe) id: string): Promise<PlaceView> {
    return this.places.read(caller, id);
  }

  /** What lies there and must not meet */
  @Get(':id/cautions')
  @Allow('manager', 'storekeeper', 'technician')
  cautions(@CurrentCaller() caller: Caller, @Param('id', ParseUUIDPipe) id: string): Promise<PlaceCautionsView> {
    return this.places.cautions(caller, id);
  }

  @Post()
  @TakesRequestKey()
  create(@CurrentCaller() caller: Caller, @RequestKey() key: KeyedRequest, @Body() input: PlaceDto): Promise<PlaceView> {
    return this.places.create(caller, key, input);
  }

  @Patch(':id')
  @TakesVersion()
  edit(@Param('id', ParseUUIDPipe) id: string, @VersionSeen() version: number, @Body() change: PlaceEditDto): Promise<PlaceView> {
    return this.places.edit(id, version, change);
  }

  /** Ends a place where nothing lies any more */
  @Post(':id/end')
  @HttpCode(204)
  @TakesVersion()
  end(@Param('id', ParseUUIDPipe) id: string, @VersionSeen() version: number, @Body() { on }: EndDto): Promise<void> {
    return this.places.end(id, version, on);
  }
}
