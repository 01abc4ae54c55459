import { Body, Controller, Delete, Get, HttpCode, Param, ParseUUIDPipe, Post, Query, Req, Res } from '@nestjs/common';
import { ApiBody, ApiConsumes, ApiTags } from '@nestjs/swagger';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { Allow, type Caller, CurrentCaller, type KeyedRequest, RequestKey, TakesRequestKey, viewOf } from '../../app/index.js';
import { ImportQuery, type ImportReportView } from '../csv/import.dto.js';
import { ImportTable } from '../csv/import-table.js';
import { FILE_BODY, sendTable, textOfForm } from '../csv/table-file.js';
import { BAR_CODE_COLUMNS, barCodeImport } from './bar-code-import.js';
import { BarCodeDto, BarCodesPageView, BarCodesQuery, type BarCodeView, ScanQuery, type ScanView } from './bar-codes.dto.js';
import { BarCodes } from './bar-codes.js';

@ApiTags('items')
@Controller()
@Allow('manager', 'storekeeper')
export class BarCodesController {
  constructor(
    private readonly codes: BarCodes,
    private readonly tables: ImportTable,
  ) {}

  @Get('bar-codes')
  @Allow('manager', 'storekeeper', 'technician')
  async list(@Query() query: BarCodesQuery): Promise<BarCodesPageView> {
    return viewOf(BarCodesPageView, await this.codes.list(query));
  }

  /** What a scanner has read: the item, and the lot, serial number, expiry and count that the code says */
  @Get('bar-codes/scan')
  @Allow('manager', 'storekeeper', 'technician')
  scan(@Query() { text }: ScanQuery): Promise<ScanView> {
    return this.codes.scan(text);
  }

  /** All bar codes as a table, which can be written to and sent back */
  @Get('bar-codes.csv')
  async table(@Res() reply: FastifyReply): Promise<void> {
    const rows = await this.codes.table();
    sendTable(
      reply,
      'bar-codes',
      BAR_CODE_COLUMNS.map(({ name }) => name),
      rows,
    );
  }

  /** Takes a table of bar codes: all its rows or, where one is wrong, none */
  @Post('bar-codes/table')
  @HttpCode(200)
  @ApiConsumes('multipart/form-data')
  @ApiBody(FILE_BODY)
  async take(@CurrentCaller() caller: Caller, @Query() query: ImportQuery, @Req() request: FastifyRequest): Promise<ImportReportView> {
    return this.tables.run(barCodeImport, caller, await textOfForm(request), query);
  }

  @Post('bar-codes')
  @TakesRequestKey()
  create(@CurrentCaller() caller: Caller, @RequestKey() key: KeyedRequest, @Body() input: BarCodeDto): Promise<BarCodeView> {
    return this.codes.create(caller, key, input);
  }

  @Delete('bar-codes/:id')
  @HttpCode(204)
  remove(@Param('id', ParseUUIDPipe) id: string): Promise<void> {
    return this.codes.remove(id);
  }
}
