import { Body, Controller, Get, HttpCode, Param, ParseUUIDPipe, Post, Put, Query, Req, Res, UseInterceptors } from '@nestjs/common';
import { ApiBody, ApiConsumes, ApiTags } from '@nestjs/swagger';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { Allow, type Caller, CurrentCaller, EtagInterceptor, TakesVersion, VersionSeen } from '../../app/index.js';
import { ImportQuery, type ImportReportView } from '../csv/import.dto.js';
import { ImportTable } from '../csv/import-table.js';
import { FILE_BODY, sendTable, textOfForm } from '../csv/table-file.js';
import { ITEM_COLUMNS, itemImport } from './item-import.js';
import { ItemSupplyDto, type ItemSupplyView } from './item-supply.dto.js';
import { ItemSupplies } from './item-supply.js';

@ApiTags('items')
@Controller()
@UseInterceptors(EtagInterceptor)
@Allow('manager', 'storekeeper')
export class ItemSupplyController {
  constructor(
    private readonly supplies: ItemSupplies,
    private readonly tables: ImportTable,
  ) {}

  /** What the store must know of an item: how much depends on it, how long it keeps, what may take its place, what its label says */
  @Get('items/:id/supply')
  @Allow('manager', 'storekeeper', 'technician')
  read(@Param('id', ParseUUIDPipe) id: string): Promise<ItemSupplyView> {
    return this.supplies.read(id);
  }

  @Put('items/:id/supply')
  @TakesVersion()
  replace(@Param('id', ParseUUIDPipe) id: string, @VersionSeen() version: number, @Body() input: ItemSupplyDto): Promise<ItemSupplyView> {
    return this.supplies.replace(id, version, input);
  }

  /** All items as a table, which can be written to and sent back */
  @Get('items.csv')
  async table(@Res() reply: FastifyReply): Promise<void> {
    const rows = await this.supplies.table();
    sendTable(
      reply,
      'items',
      ITEM_COLUMNS.map(({ name }) => name),
      rows,
    );
  }

  /** Takes a table of items, known by their codes: all its rows or, where one is wrong, none */
  @Post('items/table')
  @HttpCode(200)
  @ApiConsumes('multipart/form-data')
  @ApiBody(FILE_BODY)
  async take(@CurrentCaller() caller: Caller, @Query() query: ImportQuery, @Req() request: FastifyRequest): Promise<ImportReportView> {
    return this.tables.run(itemImport, caller, await textOfForm(request), query);
  }
}
