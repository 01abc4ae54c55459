/** A comparison of one instrument with a reference, as far as it says which readings to trust. */
export interface CheckOfInstrument {
  readonly id: string;
  readonly at: Date;
  readonly foundInTolerance: boolean;
  readonly leftInTolerance: boolean;
}

/** A time in which the readings of an instrument are doubtful. `from` null: since the record began; `to` null: until the next comparison. */
export interface DoubtfulTime {
  readonly checkId: string;
  readonly from: Date | null;
  readonly to: Date | null;
}

/**
 * When the readings of an instrument are doubtful, from all comparisons of it: one that was found out of tolerance may have been so since it was last left in tolerance, or
 * since the present instrument was fitted; nobody knows since when. One that was left out of tolerance stays doubtful until the next comparison, which judges anew.
 *
 * Any order of input, so that a comparison that is entered late changes the times around it.
 *
 * Source: common practice of reverse traceability.
 *
 * @example doubtfulTimes([{ id: 'a', at: new Date('2026-11-20T08:00:00Z'), foundInTolerance: true, leftInTolerance: true }], []) // => []
 */
export function doubtfulTimes(checks: readonly CheckOfInstrument[], fittedAt: readonly Date[]): DoubtfulTime[] {
  const inOrder = [...checks].sort((a, b) => a.at.getTime() - b.at.getTime());
  return inOrder.flatMap(({ id, at, foundInTolerance, leftInTolerance }, index) => {
    if (foundInTolerance && leftInTolerance) return [];
    const good = inOrder.slice(0, index).findLast((earlier) => earlier.leftInTolerance)?.at;
    const since = foundInTolerance ? at : latest([...(good === undefined ? [] : [good]), ...fittedAt.filter((fitted) => fitted <= at)]);
    return [{ checkId: id, from: since, to: leftInTolerance ? at : (inOrder[index + 1]?.at ?? null) }];
  });
}

const latest = (moments: readonly Date[]): Date | null => moments.reduce<Date | null>((last, moment) => (last === null || moment > last ? moment : last), null);
