export interface WhoMayGo {
  readonly id: string;
  readonly busyMinutes: number;
}

/**
 * Who is proposed for a visit: those who went to the site last, as far as they can still be sent; otherwise whoever has the least to do that day.
 */
export function whoGoes(mayGo: readonly WhoMayGo[], lastThere: readonly string[]): string[] {
  const again = lastThere.filter((id) => mayGo.some((each) => each.id === id));
  if (again.length > 0) return again;
  const [first, ...rest] = mayGo;
  if (first === undefined) return [];
  return [rest.reduce((least, each) => (each.busyMinutes < least.busyMinutes ? each : least), first).id];
}

/** The day that is proposed: the earliest of the best days, but none that has passed. */
export function dayProposed(bestDays: readonly (string | null)[], today: string): { readonly day: string; readonly best: string | null } {
  const best = bestDays.filter((day) => day !== null).toSorted()[0] ?? null;
  return { day: best === null || best < today ? today : best, best };
}
