/**
 * Days that a volume lasts when its product loses strength, so that more is drawn each day: D + (loss/2) D^2 = volume / daily use, solved for D. Loss is k C
 * per day (`lossPerDay`), 0 for chemicals that keep. 0 for an empty tank; without use there is no such day: Infinity is never given, but `null`.
 *
 * Source: integral of the second-order loss of hypochlorite; derivation in one line: use rises by 1 + loss t.
 *
 * @example coverDays(200, 8, 0) // => 25
 */
export function coverDays(volumeL: number, dailyUseL: number, lossShareADay: number): number | null {
  if (!(dailyUseL > 0)) return null;
  const plain = Math.max(0, volumeL) / dailyUseL;
  // The root in the form that does not cancel, and holds for no loss too.
  return (2 * plain) / (1 + Math.sqrt(1 + 2 * lossShareADay * plain));
}

/**
 * Product drawn over some days when it loses strength, L: daily use x (D + (loss/2) D^2). The inverse of `coverDays`.
 *
 * @example drawnL(25, 8, 0) // => 200
 */
export function drawnL(days: number, dailyUseL: number, lossShareADay: number): number {
  return dailyUseL * (days + (lossShareADay / 2) * days ** 2);
}
