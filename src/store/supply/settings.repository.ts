import { type Reader, takeEdited } from '../../app/index.js';
import type { CurrencyRate, Prisma, StoreSetting } from '../../generated/prisma/client.js';

export type { CurrencyRate as RateRow, StoreSetting as SettingsRow };

export const readSettings = (reader: Reader): Promise<StoreSetting> => reader.storeSetting.findUniqueOrThrow({ where: { id: 1 } });

export async function editSettings(tx: Reader, version: number, columns: Prisma.StoreSettingUpdateManyMutationInput): Promise<StoreSetting> {
  const { count } = await tx.storeSetting.updateMany({ where: { id: 1, version }, data: { ...columns, version: { increment: 1 } } });
  takeEdited(count === 1 ? [1] : [], 'settings of the store');
  return readSettings(tx);
}

export const allRates = (reader: Reader): Promise<CurrencyRate[]> => reader.currencyRate.findMany({ orderBy: [{ currency: 'asc' }, { fromDay: 'desc' }] });

export const enterRate = (tx: Reader, { currency, fromDay, ...rest }: Prisma.CurrencyRateUncheckedCreateInput & { fromDay: Date }): Promise<CurrencyRate> =>
  tx.currencyRate.upsert({ where: { currency_fromDay: { currency, fromDay } }, create: { currency, fromDay, ...rest }, update: rest });

/** What a unit of the currency is worth on a day, in the reckoning currency, as text; null: nobody has entered it. */
export async function rateOn(reader: Reader, currency: string, day: Date): Promise<string | null> {
  const { reckoningCurrency } = await readSettings(reader);
  if (currency === reckoningCurrency) return '1';
  const row = await reader.currencyRate.findFirst({ where: { currency, fromDay: { lte: day } }, orderBy: { fromDay: 'desc' }, select: { rate: true } });
  return row?.rate.toFixed() ?? null;
}
