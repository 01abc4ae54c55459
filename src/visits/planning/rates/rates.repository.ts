import { type Reader, takeEdited } from '../../../app/index.js';
import type { PlanRate, Prisma } from '../../../generated/prisma/client.js';

export type { PlanRate as RatesRow };

const ONE = { id: 1 };

/** What was entered, and the currency in which prices and what waiting costs are reckoned. */
export async function readRates(reader: Reader): Promise<{ row: PlanRate | null; reckoningCurrency: string }> {
  const row = await reader.planRate.findUnique({ where: ONE });
  const { reckoningCurrency } = await reader.storeSetting.findUniqueOrThrow({ where: ONE });
  return { row, reckoningCurrency };
}

/** Version 0 is that of rates that nobody has entered yet. */
export async function editRates(tx: Reader, version: number, columns: Omit<Prisma.PlanRateUncheckedCreateInput, 'id' | 'version'>): Promise<void> {
  const { count } =
    version === 0
      ? await tx.planRate.createMany({ data: [columns], skipDuplicates: true })
      : await tx.planRate.updateMany({ where: { ...ONE, version }, data: { ...columns, version: { increment: 1 } } });
  takeEdited(count === 1 ? [1] : [], 'rates');
}
