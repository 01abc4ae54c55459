/** What is fitted in a place for a module. */
export interface FittedModule {
  readonly id: string;
  readonly partId: string | null;
  readonly fittedAt: Date | null;
}

export interface ClosedFibres {
  readonly positionId: string;
  /** The module that was fitted there; null where nothing said */
  readonly partId: string | null;
  readonly at: Date;
}

/**
 * Whether fibres were closed in the module that is fitted there. They go with a module that is known, wherever it is fitted; else they go with the place, and a new module begins
 * anew there. A clean changes nothing.
 *
 * Source: own definition.
 *
 * @example isClosedIn({ positionId: 'p', partId: 'a', at: new Date('2026-11-20') }, { id: 'q', partId: 'a', fittedAt: new Date('2026-11-22') }) // => true
 * @example isClosedIn({ positionId: 'p', partId: null, at: new Date('2026-11-20') }, { id: 'p', partId: 'a', fittedAt: new Date('2026-11-22') }) // => false
 */
export function isClosedIn(closed: ClosedFibres, { id, partId, fittedAt }: FittedModule): boolean {
  if (closed.partId !== null) return closed.partId === partId;
  return closed.positionId === id && (fittedAt === null || closed.at >= fittedAt);
}
