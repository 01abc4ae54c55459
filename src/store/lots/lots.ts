import { Injectable } from '@nestjs/common';
import { addDays } from 'date-fns';
import { Clock, Database, EditedMeanwhile, faultIn, given, NotFound, type Reader, toPage, viewOf } from '../../app/index.js';
import { dateOf } from '../../registry/index.js';
import {
  type KeepingDto,
  KeepingView,
  type LotEditDto,
  LotsPageView,
  type LotsQuery,
  LotView,
  type PreservedDto,
  ValuePageView,
  type ValueQuery,
  ValueView,
} from './lots.dto.js';
import { editLot, holdLot, itemExists, type LotRow, lotsPage, reckoningCurrency, setKeeping, valuesPage } from './lots.repository.js';

/** Received batches: how long they may be kept, whether they may be used, what they are worth. */
@Injectable()
export class Lots {
  constructor(
    private readonly database: Database,
    private readonly clock: Clock,
  ) {}

  async list(query: LotsQuery): Promise<LotsPageView> {
    const rows = await lotsPage(this.database.prisma, query);
    return viewOf(
      LotsPageView,
      toPage(rows, query.limit, toView, ({ first, id }) => [first, id]),
    );
  }

  read(id: string): Promise<LotView> {
    return readLot(this.database.prisma, id);
  }

  edit(id: string, version: number, change: LotEditDto): Promise<LotView> {
    return this.database.write(async (tx) => {
      const lot = await holdLot(tx, id);
      if (lot === null) throw new NotFound('lot', id);
      if (lot.version !== version) throw new EditedMeanwhile('The lot was changed after you read it. Read it again, and make your change to that');
      const { expiresOn, held, note } = change;
      await editLot(tx, id, given({ held, note, expiresOn: expiresOn === undefined ? undefined : expiresOn === null ? null : dateOf(expiresOn) }));
      return readLot(tx, id);
    });
  }

  preserve(id: string, { on, by = null }: PreservedDto): Promise<LotView> {
    return this.database.write(async (tx) => {
      const lot = await holdLot(tx, id);
      if (lot === null) throw new NotFound('lot', id);
      const preservedOn = dateOf(on);
      if (preservedOn > addDays(this.clock.now(), 1)) throw faultIn('on', 'must not be in the future');
      const days = lot.item.keeping?.preserveDays;
      if (by === null && days === undefined)
        throw faultIn('by', 'say by which day it must be preserved anew: for its item nobody has said how long the preservative lasts');
      if (by !== null && by < on) throw faultIn('by', `must not be before ${on}, when it was preserved`);
      await editLot(tx, id, { preservedOn, preserveBy: by === null ? addDays(preservedOn, days ?? 0) : dateOf(by) });
      return readLot(tx, id);
    });
  }

  /** For lots that come from now on. */
  keep(itemId: string, { preserveDays }: KeepingDto): Promise<KeepingView> {
    return this.database.write(async (tx) => {
      if (!(await itemExists(tx, itemId))) throw new NotFound('item', itemId);
      await setKeeping(tx, itemId, preserveDays);
      return viewOf(KeepingView, { itemId, preserveDays });
    });
  }

  async values(query: ValueQuery): Promise<ValuePageView> {
    const reader = this.database.prisma;
    const rows = await valuesPage(reader, query);
    const page = toPage(
      rows,
      query.limit,
      (row) => viewOf(ValueView, row),
      ({ placeName, itemCode }) => [placeName, itemCode],
    );
    return viewOf(ValuePageView, { currency: await reckoningCurrency(reader), ...page });
  }
}

async function readLot(reader: Reader, id: string): Promise<LotView> {
  const [row] = await lotsPage(reader, { limit: 1 }, id);
  if (row === undefined) throw new NotFound('lot', id);
  return toView(row);
}

const toView = ({ first: _first, ...row }: LotRow) => viewOf(LotView, row);
