import type { Day } from '../../shared/day.js';

export interface AreaFromDay {
  readonly fromDay: Day;
  readonly areaM2: number;
}

/**
 * Whether the active area was raised from the day on which a new module was fitted: what closed fibres of the one before it took is there again, and only people know how much area the
 * new one brings. Any order of input.
 *
 * Source: own definition.
 *
 * @example isAreaRaised([{ fromDay: '2020-01-01', areaM2: 600 }, { fromDay: '2026-11-21', areaM2: 597 }], '2026-11-22') // => false
 * @example isAreaRaised([{ fromDay: '2026-11-22', areaM2: 600 }, { fromDay: '2026-11-21', areaM2: 597 }], '2026-11-22') // => true
 */
export function isAreaRaised(areas: readonly AreaFromDay[], fittedOn: Day): boolean {
  const inOrder = [...areas].sort((a, b) => (a.fromDay < b.fromDay ? -1 : 1));
  return inOrder.some(({ fromDay, areaM2 }, index) => {
    const before = inOrder[index - 1];
    return fromDay >= fittedOn && before !== undefined && areaM2 > before.areaM2;
  });
}
