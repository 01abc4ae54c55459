import { Body, Controller, Get, HttpCode, Param, ParseUUIDPipe, Patch, Post, Query, Req, Res, UseInterceptors } from '@nestjs/common';
import { ApiBody, ApiConsumes, ApiTags } from '@nestjs/swagger';
import type { FastifyReply, FastifyRequest } from 'fastify';
import {
  Allow,
  type Caller,
  CurrentCaller,
  EtagInterceptor,
  type KeyedRequest,
  RequestKey,
  TakesRequestKey,
  TakesVersion,
  VersionSeen,
  viewOf,
} from '../../app/index.js';
import { EndDto } from '../../registry/index.js';
import { ImportQuery, type ImportReportView } from '../csv/import.dto.js';
import { ImportTable } from '../csv/import-table.js';
import { FILE_BODY, sendTable, textOfForm } from '../csv/table-file.js';
import { OFFER_COLUMNS, offerImport } from './offer-import.js';
import { OfferDto, OfferEditDto, OffersPageView, OffersQuery, type OfferView } from './offers.dto.js';
import { Offers } from './offers.js';

@ApiTags('suppliers')
@Controller()
@UseInterceptors(EtagInterceptor)
@Allow('manager', 'storekeeper')
export class OffersController {
  constructor(
    private readonly offers: Offers,
    private readonly tables: ImportTable,
  ) {}

  /** What is sold by whom, in which units and at what price */
  @Get('offers')
  async list(@Query() query: OffersQuery): Promise<OffersPageView> {
    return viewOf(OffersPageView, await this.offers.list(query));
  }

  /** All offers as a table, which can be written to and sent back */
  @Get('offers.csv')
  async table(@Res() reply: FastifyReply): Promise<void> {
    const rows = await this.offers.table();
    sendTable(
      reply,
      'offers',
      OFFER_COLUMNS.map(({ name }) => name),
      rows,
    );
  }

  /** Takes a table of offers, known by item and supplier: all its rows or, where one is wrong, none */
  @Post('offers/table')
  @HttpCode(200)
  @ApiConsumes('multipart/form-data')
  @ApiBody(FILE_BODY)
  async take(@CurrentCaller() caller: Caller, @Query() query: ImportQuery, @Req() request: FastifyRequest): Promise<ImportReportView> {
    return this.tables.run(offerImport, caller, await textOfForm(request), query);
  }

  @Get('offers/:id')
  read(@Param('id', ParseUUIDPipe) id: string): Promise<OfferView> {
    return this.offers.read(id);
  }

  @Post('offers')
  @TakesRequestKey()
  create(@CurrentCaller() caller: Caller, @RequestKey() key: KeyedRequest, @Body() input: OfferDto): Promise<OfferView> {
    return this.offers.create(caller, key, input);
  }

  /** Changes an offer; a price is added to those before, which stay on record */
  @Patch('offers/:id')
  @TakesVersion()
  edit(
    @CurrentCaller() caller: Caller,
    @Param('id', ParseUUIDPipe) id: string,
    @VersionSeen() version: number,
    @Body() change: OfferEditDto,
  ): Promise<OfferView> {
    return this.offers.edit(caller, id, version, change);
  }

  @Post('offers/:id/end')
  @HttpCode(204)
  @TakesVersion()
  end(@Param('id', ParseUUIDPipe) id: string, @VersionSeen() version: number, @Body() { on }: EndDto): Promise<void> {
    return this.offers.end(id, version, on);
  }
}
