import { Injectable } from '@nestjs/common';
import {
  type Caller,
  Clock,
  Conflict,
  Database,
  faultIn,
  given,
  InvalidRequest,
  type KeyedRequest,
  KeyedWork,
  type PageOf,
  type Reader,
  toPage,
  viewOf,
} from '../../app/index.js';
import { dateOf, dayOf, dayOrNull } from '../../registry/index.js';
import { unitFactor, unitProblem } from '../core/supply/unit-factor.js';
import type { TableRow } from '../csv/table-file.js';
import { type OfferDto, type OfferEditDto, OfferPriceView, type OffersQuery, OfferView } from './offers.dto.js';
import { editOffer, enterPrice, findOffer, holdEnds, makeOffer, type OfferRow, offerOf, offersPage, offerTable } from './offers.repository.js';

/** Items as suppliers sell them. */
@Injectable()
export class Offers {
  constructor(
    private readonly database: Database,
    private readonly work: KeyedWork,
    private readonly clock: Clock,
  ) {}

  async list(query: OffersQuery): Promise<PageOf<OfferView>> {
    const rows = await offersPage(this.database.prisma, query);
    return toPage(
      rows,
      query.limit,
      (row) => this.view(row),
      ({ item, supplier }) => [item.code, supplier.name],
    );
  }

  async read(id: string): Promise<OfferView> {
    return this.view(await findOffer(this.database.prisma, id));
  }

  table(): Promise<TableRow[]> {
    return offerTable(this.database.prisma, this.today());
  }

  create(caller: Caller, key: KeyedRequest, { price, priceFrom, ...input }: OfferDto): Promise<OfferView> {
    return this.work.run(key, async (tx) => {
      const { itemId, supplierId, purchaseUnit } = input;
      const { item, supplier } = await holdEnds(tx, itemId, supplierId);
      if (item === null) throw faultIn('itemId', 'must be an item that has not ended');
      if (supplier === null) throw faultIn('supplierId', 'must be a supplier that has not ended');
      const known = await offerOf(tx, itemId, supplierId);
      if (known !== null && known.endedOn === null) throw new Conflict('This supplier offers the item already. Edit that offer');
      const unitsPerPurchase = unitsOf(purchaseUnit, item.unit, input.unitsPerPurchase);
      const id = await makeOffer(tx, { ...given(input), itemId, supplierId, purchaseUnit, unitsPerPurchase });
      await this.enterPrice(tx, caller, id, price, priceFrom);
      return this.view(await findOffer(tx, id));
    });
  }

  edit(caller: Caller, id: string, version: number, { price, priceFrom, ...change }: OfferEditDto): Promise<OfferView> {
    return this.database.write(async (tx) => {
      const row = await findOffer(tx, id);
      if (row.endedOn !== null) throw new InvalidRequest(`It ended on ${dayOf(row.endedOn)} and cannot be edited. Enter it again to take it up`);
      const { purchaseUnit = row.purchaseUnit } = change;
      const said = change.unitsPerPurchase ?? (change.purchaseUnit === undefined ? row.unitsPerPurchase.toFixed() : undefined);
      const unitsPerPurchase = unitsOf(purchaseUnit, row.item.unit, said);
      await editOffer(tx, id, version, { ...given(change), unitsPerPurchase });
      await this.enterPrice(tx, caller, id, price, priceFrom);
      return this.view(await findOffer(tx, id));
    });
  }

  async end(id: string, version: number, on: string): Promise<void> {
    if (on > this.today()) throw faultIn('on', 'must not be in the future');
    await this.database.write(async (tx) => {
      await findOffer(tx, id);
      await editOffer(tx, id, version, { endedOn: dateOf(on) });
    });
  }

  private async enterPrice(tx: Reader, caller: Caller, offerId: string, price: string | undefined, from: string | undefined): Promise<void> {
    if (price === undefined && from !== undefined) throw faultIn('price', 'say the price that holds from that day on');
    if (price === undefined) return;
    await enterPrice(tx, { offerId, fromDay: dateOf(from ?? this.today()), price, by: caller.name, at: this.clock.now() });
  }

  private today(): string {
    return dayOf(this.clock.now());
  }

  private view(row: OfferRow): OfferView {
    const { id, itemId, item, supplierId, supplier, supplierCode, purchaseUnit, leadDays, rank, note, endedOn, version } = row;
    const today = dateOf(this.today());
    return viewOf(OfferView, {
      id,
      itemId,
      itemCode: item.code,
      itemName: item.name,
      useUnit: item.unit,
      supplierId,
      supplierName: supplier.name,
      currency: supplier.currency,
      supplierCode,
      purchaseUnit,
      unitsPerPurchase: row.unitsPerPurchase.toFixed(),
      pack: row.pack.toFixed(),
      minimumQuantity: row.minimumQuantity.toFixed(),
      leadDays: leadDays ?? supplier.leadDays,
      ownLeadDays: leadDays !== null,
      rank,
      price: row.prices.find(({ fromDay }) => fromDay <= today)?.price.toFixed() ?? null,
      prices: row.prices.map(({ fromDay, price, by, at }) => viewOf(OfferPriceView, { fromDay: dayOf(fromDay), price: price.toFixed(), by, at })),
      note,
      endedOn: dayOrNull(endedOn),
      version,
    });
  }
}

/** Units of use in one unit of purchase: as somebody said it, or as the units say it. */
function unitsOf(purchaseUnit: string, useUnit: string, said: string | undefined): string {
  const known = unitFactor(purchaseUnit, useUnit);
  if (said === undefined && known.kind === 'fixed') return String(known.factor);
  if (said === undefined) throw faultIn('unitsPerPurchase', `say how many ${useUnit} are in one ${purchaseUnit}: the units alone do not tell`);
  const problem = unitProblem(purchaseUnit, useUnit, Number(said));
  if (problem !== null) throw faultIn('unitsPerPurchase', problem);
  return said;
}
