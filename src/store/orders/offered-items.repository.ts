import type { Reader } from '../../app/index.js';

export interface OfferedItem {
  readonly itemId: string;
  readonly itemCode: string;
  readonly useUnit: string;
  /** Null: the supplier does not offer it */
  readonly offer: ItemOffer | null;
}

export interface ItemOffer {
  readonly supplierId: string;
  readonly supplierCode: string;
  readonly purchaseUnit: string;
  readonly unitsPerPurchase: string;
  readonly pack: string;
  readonly minimumQuantity: string;
  /** Of one unit of purchase; null: not known */
  readonly price: string | null;
}

type Row = Omit<OfferedItem, 'offer'> & { readonly [Field in keyof ItemOffer]: ItemOffer[Field] | null };

/** Items that have not ended, each with the offer of a supplier or, of none, with the one that is asked first. One statement. */
export async function offersOfItems(reader: Reader, supplierId: string | null, itemIds: readonly string[], today: Date): Promise<Map<string, OfferedItem>> {
  const rows = await reader.$queryRaw<Row[]>`
    SELECT DISTINCT ON (i.id) i.id AS "itemId", i.code AS "itemCode", i.unit AS "useUnit", o.supplier_id AS "supplierId", o.supplier_code AS "supplierCode",
           o.purchase_unit AS "purchaseUnit", trim_scale(o.units_per_purchase)::text AS "unitsPerPurchase", trim_scale(o.pack)::text AS pack,
           trim_scale(o.minimum_quantity)::text AS "minimumQuantity",
           (SELECT trim_scale(p.price)::text FROM offer_price p WHERE p.offer_id = o.id AND p.from_day <= ${today}::timestamptz::date ORDER BY p.from_day DESC LIMIT 1) AS price
      FROM item i LEFT JOIN (SELECT o.*, s.name FROM offer o JOIN supplier s ON s.id = o.supplier_id WHERE o.ended_on IS NULL AND s.ended_on IS NULL) o
        ON o.item_id = i.id AND (${supplierId}::uuid IS NULL OR o.supplier_id = ${supplierId}::uuid)
     WHERE i.id = ANY(${[...new Set(itemIds)]}::uuid[]) AND i.ended_on IS NULL ORDER BY i.id, o.rank, o.name`;
  return new Map(rows.map((row) => [row.itemId, toItem(row)]));
}

function toItem({ itemId, itemCode, useUnit, ...offer }: Row): OfferedItem {
  const { supplierId, supplierCode, purchaseUnit, unitsPerPurchase, pack, minimumQuantity, price } = offer;
  if (supplierId === null || purchaseUnit === null || unitsPerPurchase === null) return { itemId, itemCode, useUnit, offer: null };
  const sold = { pack: pack ?? '1', minimumQuantity: minimumQuantity ?? '0', price };
  return { itemId, itemCode, useUnit, offer: { supplierId, supplierCode: supplierCode ?? '', purchaseUnit, unitsPerPurchase, ...sold } };
}

/** The least that suppliers take an order for, in their own currency. */
export const termsOf = (reader: Reader, supplierIds: readonly string[]) =>
  reader.supplier
    .findMany({ where: { id: { in: [...supplierIds] } }, select: { id: true, minimumOrder: true } })
    .then((rows) => rows.map(({ id, minimumOrder }) => ({ supplierId: id, minimumOrder: minimumOrder?.toNumber() ?? null })));
