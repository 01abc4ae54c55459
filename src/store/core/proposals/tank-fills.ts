import { PATH_DAYS } from './need-path.js';

export interface TankAsked {
  readonly dailyUseL: number;
  /** From empty to full, above the heel */
  readonly usableL: number;
  /** Days from today until it is as likely as not to be empty */
  readonly runOutInDays: number;
  /** In one unit of the item */
  readonly litresPerUnit: number;
}

/**
 * When a tank is filled within the coming half year, and with how much: whole units from the day on which it runs out, then as often as that lasts.
 *
 * @example tankFills({ dailyUseL: 10, usableL: 1000, runOutInDays: 30, litresPerUnit: 60 }) // => [{ "inDays": 30, "quantity": 17 }, { "inDays": 132, "quantity": 17 }]
 */
export function tankFills({ dailyUseL, usableL, runOutInDays, litresPerUnit }: TankAsked): { readonly inDays: number; readonly quantity: number }[] {
  if (dailyUseL <= 0 || usableL <= 0) return [];
  const quantity = Math.max(1, Math.ceil(usableL / litresPerUnit - 1e-9));
  const lasts = Math.max(1, (quantity * litresPerUnit) / dailyUseL);
  const fills: { inDays: number; quantity: number }[] = [];
  for (let day = Math.max(0, runOutInDays); day <= PATH_DAYS; day += lasts) fills.push({ inDays: Math.floor(day), quantity });
  return fills;
}
