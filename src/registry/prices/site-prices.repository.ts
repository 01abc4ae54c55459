import { type Reader, takeEdited } from '../../app/index.js';
import type { Prisma, SitePrice } from '../../generated/prisma/client.js';

export type { SitePrice as SitePriceRow };

/** The site as far as prices go; null: there is none. */
export const readSitePrices = (reader: Reader, siteId: string) => reader.site.findUnique({ where: { id: siteId }, select: { price: true } });

export async function reckoningCurrency(reader: Reader): Promise<string> {
  const { reckoningCurrency: currency } = await reader.storeSetting.findUniqueOrThrow({ where: { id: 1 } });
  return currency;
}

/** Version 0 is that of prices that nobody has entered yet. */
export async function editSitePrices(
  tx: Reader,
  siteId: string,
  version: number,
  columns: Omit<Prisma.SitePriceUncheckedCreateInput, 'siteId'>,
): Promise<SitePrice> {
  const { count } =
    version === 0
      ? await tx.sitePrice.createMany({ data: [{ siteId, ...columns }], skipDuplicates: true })
      : await tx.sitePrice.updateMany({ where: { siteId, version }, data: { ...columns, version: { increment: 1 } } });
  takeEdited(count === 1 ? [1] : [], 'prices of the site');
  return tx.sitePrice.findUniqueOrThrow({ where: { siteId } });
}
