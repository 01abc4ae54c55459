import { Injectable } from '@nestjs/common';
import { type Caller, Clock, Conflict, Database, faultIn, InvalidRequest, type KeyedRequest, KeyedWork, type PageOf, toPage, viewOf } from '../../app/index.js';
import { type Scan, scanOf } from '../core/supply/scan.js';
import type { TableRow } from '../csv/table-file.js';
import { type BarCodeDto, type BarCodesQuery, BarCodeView, ScanView } from './bar-codes.dto.js';
import { type BarCodeRow, barCodesPage, barCodeTable, itemByCode, makeBarCode, openItem, removeBarCode, withCode } from './bar-codes.repository.js';

/** What a scanner may read from items and their packages. */
@Injectable()
export class BarCodes {
  constructor(
    private readonly database: Database,
    private readonly work: KeyedWork,
    private readonly clock: Clock,
  ) {}

  async list(query: BarCodesQuery): Promise<PageOf<BarCodeView>> {
    return toPage(await barCodesPage(this.database.prisma, query), query.limit, toView, ({ code }) => [code]);
  }

  table(): Promise<TableRow[]> {
    return barCodeTable(this.database.prisma);
  }

  create(caller: Caller, key: KeyedRequest, { code, itemId, quantity = '1', note = '' }: BarCodeDto): Promise<BarCodeView> {
    return this.work.run(key, async (tx) => {
      const scan = this.read(code);
      const known = scan.kind === 'scan' ? scan.code : null;
      if (known === null) throw faultIn('code', scan.kind === 'unreadable' ? scan.why : 'names no item: scan the code with the trade item number, (01)');
      if ((await openItem(tx, itemId)) === null) throw faultIn('itemId', 'must be an item that has not ended');
      const taken = await withCode(tx, known);
      if (taken !== null) throw new Conflict(`${known} is the code of ${taken.item.code} already. Take it from there first, or scan the other package`);
      return toView(await makeBarCode(tx, { code: known, itemId, quantity, note, by: caller.name, at: this.clock.now() }));
    });
  }

  remove(id: string): Promise<void> {
    return this.database.write((tx) => removeBarCode(tx, id));
  }

  /** What was scanned: by a code on record, or by an item's own code. */
  async scan(text: string): Promise<ScanView> {
    const scan = this.read(text);
    if (scan.kind === 'unreadable') throw new InvalidRequest(`It cannot be read: ${scan.why}`, [{ pointer: 'text', message: scan.why }]);
    const { code, lot, serial, expiresOn, bestBefore, count } = scan;
    const item = code === null ? null : ((await this.byCode(code)) ?? (await this.byItem(code)));
    return viewOf(ScanView, { code, item, lot, serial, expiresOn, bestBefore, count });
  }

  private async byCode(code: string): Promise<BarCodeView | null> {
    const row = await withCode(this.database.prisma, code);
    return row === null ? null : toView(row);
  }

  private async byItem(code: string): Promise<BarCodeView | null> {
    const item = await itemByCode(this.database.prisma, code);
    if (item === null) return null;
    const { id, code: itemCode, name, unit } = item;
    return viewOf(BarCodeView, { id, code, itemId: id, itemCode, itemName: name, unit, quantity: '1', note: '', by: '', at: this.clock.now() });
  }

  private read(text: string): Scan {
    return scanOf(text, this.clock.now().getUTCFullYear());
  }
}

function toView({ id, code, itemId, item, quantity, note, by, at }: BarCodeRow): BarCodeView {
  return viewOf(BarCodeView, { id, code, itemId, itemCode: item.code, itemName: item.name, unit: item.unit, quantity: quantity.toFixed(), note, by, at });
}
