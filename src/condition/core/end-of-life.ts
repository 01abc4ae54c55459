/** What became of a part. Only a failure says how long such parts live; one that was taken out for another reason would have lived longer. */
export type EndOfLife = 'failed' | 'taken out' | 'in use';

const FAILED = /\b(fail|fault|broke|broken|worn|wear|leak|seiz|burst|crack|torn|stuck|burn|clogg|block|plugg|noisy|at the limit|end of life|spent)/i;

/**
 * Tells from the reason in words, and from a breakdown at its place in the month before, whether a part failed or was taken out for another reason (by the calendar, under warranty, for a better one).
 *
 * Source: own; in reliability such lives are called suspended or censored.
 *
 * @example endOfLife({ removed: true, reason: 'worn out', brokeDown: false }) // => "failed"
 * @example endOfLife({ removed: true, reason: 'changed by the calendar', brokeDown: false }) // => "taken out"
 */
export function endOfLife({
  removed,
  reason,
  brokeDown,
}: {
  readonly removed: boolean;
  readonly reason: string | null;
  readonly brokeDown: boolean;
}): EndOfLife {
  if (!removed) return 'in use';
  return brokeDown || FAILED.test(reason ?? '') ? 'failed' : 'taken out';
}
