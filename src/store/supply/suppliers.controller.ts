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
import { EndDto, RegistryQuery } from '../../registry/index.js';
import { ImportQuery, type ImportReportView } from '../csv/import.dto.js';
import { ImportTable } from '../csv/import-table.js';
import { FILE_BODY, sendTable, textOfForm } from '../csv/table-file.js';
import { SUPPLIER_COLUMNS, supplierImport } from './supplier-import.js';
import { SupplierDto, SupplierEditDto, SuppliersPageView, type SupplierView } from './suppliers.dto.js';
import { Suppliers } from './suppliers.js';

@ApiTags('suppliers')
@Controller()
@UseInterceptors(EtagInterceptor)
@Allow('manager', 'storekeeper')
export class SuppliersController {
  constructor(
    private readonly suppliers: Suppliers,
    private readonly tables: ImportTable,
  ) {}

  @Get('suppliers')
  async list(@CurrentCaller() caller: Caller, @Query() query: RegistryQuery): Promise<SuppliersPageView> {
    return viewOf(SuppliersPageView, await this.suppliers.list(caller, query, {}));
  }

  /** All suppliers as a table, which can be written to and sent back */
  @Get('suppliers.csv')
  async table(@Res() reply: FastifyReply): Promise<void> {
    const rows = await this.suppliers.table();
    sendTable(
      reply,
      'suppliers',
      SUPPLIER_COLUMNS.map(({ name }) => name),
      rows,
    );
  }

  /** Takes a table of suppliers, known by their names: all its rows or, where one is wrong, none */
  @Post('suppliers/table')
  @HttpCode(200)
  @ApiConsumes('multipart/form-data')
  @ApiBody(FILE_BODY)
  async take(@CurrentCaller() caller: Caller, @Query() query: ImportQuery, @Req() request: FastifyRequest): Promise<ImportReportView> {
    return this.tables.run(supplierImport, caller, await textOfForm(request), query);
  }

  @Get('suppliers/:id')
  read(@CurrentCaller() caller: Caller, @Param('id', ParseUUIDPipe) id: string): Promise<SupplierView> {
    return this.suppliers.read(caller, id);
  }

  @Post('suppliers')
  @TakesRequestKey()
  create(@CurrentCaller() caller: Caller, @RequestKey() key: KeyedRequest, @Body() input: SupplierDto): Promise<SupplierView> {
    return this.suppliers.create(caller, key, input);
  }

  @Patch('suppliers/:id')
  @TakesVersion()
  edit(@Param('id', ParseUUIDPipe) id: string, @VersionSeen() version: number, @Body() change: SupplierEditDto): Promise<SupplierView> {
    return this.suppliers.edit(id, version, change);
  }

  /** Ends a supplier of whom nothing is ordered any more */
  @Post('suppliers/:id/end')
  @HttpCode(204)
  @TakesVersion()
  end(@Param('id', ParseUUIDPipe) id: string, @VersionSeen() version: number, @Body() { on }: EndDto): Promise<void> {
    return this.suppliers.end(id, version, on);
  }
}
