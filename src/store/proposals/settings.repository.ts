import { type Reader, takeEdited } from '../../app/index.js';
import type { Items } from '../demand/stock-facts.repository.js';

export interface SettingRow {
  readonly itemId: string;
  readonly placeId: string;
  readonly service: 'fill' | 'jobs' | 'cost' | null;
  readonly asked: number | null;
  readonly shortCost: string | null;
  readonly reviewDays: number | null;
  readonly minimum: string | null;
  readonly maximum: string | null;
  readonly criticality: 'stops the skid' | 'hampers the skid' | 'can wait' | null;
  readonly note: string;
  readonly by: string;
  readonly at: Date;
  readonly version: number;
}

export const stockSettings = (reader: Reader, items: Items) =>
  reader.$queryRaw<SettingRow[]>`
    SELECT item_id AS "itemId", place_id AS "placeId", service, asked, trim_scale(short_cost)::text AS "shortCost", review_days AS "reviewDays", trim_scale(minimum)::text AS minimum,
           trim_scale(maximum)::text AS maximum, criticality, note, by, at, version
      FROM stock_setting WHERE ${items}::uuid[] IS NULL OR item_id = ANY(${items}::uuid[])`;

export type NewSetting = Omit<SettingRow, 'version'>;

/** Version 0: nobody has said anything yet. */
export async function keepSetting(tx: Reader, { itemId, placeId, ...columns }: NewSetting, version: number): Promise<void> {
  const { count } =
    version === 0
      ? await tx.stockSetting.createMany({ data: [{ itemId, placeId, ...columns }], skipDuplicates: true })
      : await tx.stockSetting.updateMany({ where: { itemId, placeId, version }, data: { ...columns, version: { increment: 1 } } });
  takeEdited(count === 1 ? [itemId] : [], 'stock setting');
}

export const keepSiteSupply = (tx: Reader, siteId: string, placeId: string | null) =>
  placeId === null
    ? tx.siteSupply.deleteMany({ where: { siteId } })
    : tx.siteSupply.upsert({ where: { siteId }, create: { siteId, placeId }, update: { placeId }, select: { siteId: true } });

export async function knownOf(reader: Reader, ids: { itemId?: string; placeId?: string | null; siteId?: string; supplierId?: string | null }) {
  const [known] = await reader.$queryRaw<{ item: boolean; place: boolean; store: boolean; site: boolean; supplier: boolean }[]>`
    SELECT EXISTS (SELECT 1 FROM item WHERE id = ${ids.itemId ?? null}::uuid AND ended_on IS NULL) AS item,
           EXISTS (SELECT 1 FROM place WHERE id = ${ids.placeId ?? null}::uuid AND ended_on IS NULL AND kind IN ('store', 'van', 'site')) AS place,
           EXISTS (SELECT 1 FROM place WHERE id = ${ids.placeId ?? null}::uuid AND ended_on IS NULL AND kind = 'store') AS store,
           EXISTS (SELECT 1 FROM site WHERE id = ${ids.siteId ?? null}::uuid) AS site,
           EXISTS (SELECT 1 FROM offer o JOIN supplier s ON s.id = o.supplier_id WHERE o.item_id = ${ids.itemId ?? null}::uuid AND o.supplier_id = ${ids.supplierId ?? null}::uuid
                      AND o.ended_on IS NULL AND s.ended_on IS NULL) AS supplier`;
  return known ?? { item: false, place: false, store: false, site: false, supplier: false };
}
