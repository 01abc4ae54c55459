import { Injectable } from '@nestjs/common';
import { Database, toPage, viewOf } from '../../../app/index.js';
import type { TableRow } from '../../csv/table-file.js';
import { KeptItemView, StockSettingsPageView, type StockSettingsQuery } from './settings.dto.js';
import { settingsPage, settingsTable } from './settings-list.repository.js';

/** What people said of how items are kept at places. */
@Injectable()
export class SettingsList {
  constructor(private readonly database: Database) {}

  async page(query: StockSettingsQuery): Promise<StockSettingsPageView> {
    const rows = await settingsPage(this.database.prisma, query);
    return viewOf(
      StockSettingsPageView,
      toPage(
        rows,
        query.limit,
        (row) => viewOf(KeptItemView, row),
        ({ itemCode, placeName }) => [itemCode, placeName],
      ),
    );
  }

  table(): Promise<TableRow[]> {
    return settingsTable(this.database.prisma);
  }
}
