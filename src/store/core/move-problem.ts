/** Why stock is moved. `reverse` takes another post back. */
export const POST_KINDS = [
  'receive',
  'use',
  'consume',
  'transfer',
  'send',
  'arrive',
  'return',
  'repair',
  'repaired',
  'send back',
  'scrap',
  'correct',
  'count',
  'reverse',
] as const;
export type PostKind = (typeof POST_KINDS)[number];

/** What people post by hand. The others belong to work that posts them: jobs, transfers, repairs, counts. */
export const HAND_KINDS = ['receive', 'transfer', 'return', 'consume', 'scrap', 'correct'] as const satisfies readonly PostKind[];

const DONE = { use: 'used', consume: 'used', 'send back': 'sent back', scrap: 'scrapped' } as const;

interface Sides {
  readonly fromPlaceId: string | null;
  readonly toPlaceId: string | null;
}

/**
 * What is wrong with the two ends of a move of this kind; null where nothing is. Outside (a supplier, a skid, the scrap) is told by no place.
 *
 * @example moveProblem('receive', { fromPlaceId: null, toPlaceId: 'store' }) // => null
 * @example moveProblem('scrap', { fromPlaceId: null, toPlaceId: 'store' }).field // => "fromPlaceId"
 */
export function moveProblem(kind: PostKind, { fromPlaceId, toPlaceId }: Sides): { field: keyof Sides; message: string } | null {
  const wanted = (field: keyof Sides, why: string) => ({ field, message: `${why}: say the place` });
  const unwanted = (field: keyof Sides, why: string) => ({ field, message: `${why}: leave the place out` });
  if (fromPlaceId !== null && fromPlaceId === toPlaceId) return { field: 'toPlaceId', message: 'must be another place than the one it comes from' };
  switch (kind) {
    case 'receive':
      if (toPlaceId === null) return wanted('toPlaceId', 'what is received goes to a place');
      return fromPlaceId === null ? null : unwanted('fromPlaceId', 'what is received comes from outside');
    case 'return':
      return toPlaceId === null ? wanted('toPlaceId', 'what is returned goes to a place') : null;
    case 'transfer':
    case 'send':
    case 'repair':
    case 'repaired':
      if (fromPlaceId === null) return wanted('fromPlaceId', 'a transfer comes from a place');
      return toPlaceId === null ? wanted('toPlaceId', 'a transfer goes to a place') : null;
    case 'use':
    case 'consume':
    case 'send back':
    case 'scrap':
      if (fromPlaceId === null) return wanted('fromPlaceId', `what is ${DONE[kind]} comes from a place`);
      return toPlaceId === null ? null : unwanted('toPlaceId', `what is ${DONE[kind]} goes to no place`);
    case 'correct':
    case 'count':
      if (fromPlaceId === null && toPlaceId === null) return wanted('toPlaceId', 'a correction is of a place');
      return fromPlaceId === null || toPlaceId === null ? null : unwanted('fromPlaceId', 'a correction adds to one place or takes from one');
    case 'arrive':
    case 'reverse':
      return fromPlaceId === null && toPlaceId === null ? wanted('toPlaceId', 'a move has a place at one end') : null;
  }
}
