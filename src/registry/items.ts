import { Injectable } from '@nestjs/common';
import { viewOf } from '../app/index.js';
import { dayOrNull } from './days.js';
import { type ItemDto, type ItemEditDto, ItemView } from './items.dto.js';
import { type ItemRow, itemRecords } from './items.repository.js';
import { Register } from './register.js';

@Injectable()
export class Items extends Register<ItemRow, ItemDto, ItemEditDto, ItemView> {
  protected readonly records = itemRecords;

  protected nameOf(row: ItemRow): string {
    return row.code;
  }

  protected view({ id, code, name, kind, unit, note, endedOn, version }: ItemRow): ItemView {
    return viewOf(ItemView, { id, code, name, kind: kind as ItemView['kind'], unit, note, endedOn: dayOrNull(endedOn), version });
  }
}
