import type { Kept } from './keep-stock.js';

/** One target of all items, and what came of it. */
export interface Reached {
  readonly nominal: number;
  readonly fill: number;
  readonly stock: number;
}

/** Every item at every nominal service. */
export type KeptByNominal = readonly { readonly nominal: number; readonly kept: readonly Kept[] }[];

/** Pooled over the items that are named, each as often as it is named. */
export function frontierOf(byNominal: KeptByNominal, items: readonly number[]): Reached[] {
  return byNominal.map(({ nominal, kept }) => {
    let [needed, served, stock] = [0, 0, 0];
    for (const item of items) {
      const one = kept[item];
      if (one === undefined) continue;
      needed += one.needed;
      served += one.served;
      stock += one.stock;
    }
    return { nominal, fill: needed === 0 ? 1 : served / needed, stock: stock / items.length };
  });
}

/** Stock, and nominal service, at which a share of what is needed is served at once: between the two targets on both sides. Null where no target reaches it. */
export function atFill(frontier: readonly Reached[], fill: number): { readonly stock: number; readonly nominal: number } | null {
  const above = frontier.findIndex((reached) => reached.fill >= fill);
  const [low, high] = [frontier[above - 1], frontier[above]];
  if (high === undefined) return null;
  if (low === undefined || high.fill === low.fill) return high;
  const share = (fill - low.fill) / (high.fill - low.fill);
  return { stock: low.stock + share * (high.stock - low.stock), nominal: low.nominal + share * (high.nominal - low.nominal) };
}
