import { Controller, Get, HttpCode, Post, Query, Req, Res } from '@nestjs/common';
import { ApiBody, ApiConsumes, ApiTags } from '@nestjs/swagger';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { Allow, type Caller, CurrentCaller } from '../../../app/index.js';
import { ImportQuery, type ImportReportView } from '../../csv/import.dto.js';
import { ImportTable } from '../../csv/import-table.js';
import { FILE_BODY, sendTable, textOfForm } from '../../csv/table-file.js';
import { SETTING_COLUMNS, settingImport } from './setting-import.js';
import { type StockSettingsPageView, StockSettingsQuery } from './settings.dto.js';
import { SettingsList } from './settings-list.js';

@ApiTags('reorder')
@Controller()
@Allow('manager', 'storekeeper')
export class StockSettingsController {
  constructor(
    private readonly settings: SettingsList,
    private readonly tables: ImportTable,
  ) {}

  /** What people said of how items are kept at places; where nobody said anything, nothing stands here */
  @Get('stock-settings')
  list(@Query() query: StockSettingsQuery): Promise<StockSettingsPageView> {
    return this.settings.page(query);
  }

  /** All of it as a table, which can be written to and sent back */
  @Get('stock-settings.csv')
  async table(@Res() reply: FastifyReply): Promise<void> {
    const rows = await this.settings.table();
    sendTable(
      reply,
      'stock-settings',
      SETTING_COLUMNS.map(({ name }) => name),
      rows,
    );
  }

  /** Takes a table of settings: all its rows or, where one is wrong, none. The reorder list follows within ten minutes */
  @Post('stock-settings/table')
  @HttpCode(200)
  @ApiConsumes('multipart/form-data')
  @ApiBody(FILE_BODY)
  async take(@CurrentCaller() caller: Caller, @Query() query: ImportQuery, @Req() request: FastifyRequest): Promise<ImportReportView> {
    return this.tables.run(settingImport, caller, await textOfForm(request), query);
  }
}
