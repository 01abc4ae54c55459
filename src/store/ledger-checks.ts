import { type FieldProblem, InvalidRequest } from '../app/index.js';
import type { Move } from './core/apply-moves.js';
import { moveProblem, type PostKind } from './core/move-problem.js';
import { millionthsOf } from './core/quantity.js';
import type { Known, PlaceNow } from './ledger.repository.js';

type Told = [field: string, message: string];

function refuseAny(problems: readonly FieldProblem[]): void {
  if (problems.length > 0) throw new InvalidRequest('The post has moves that need a change', problems);
}

const at = (place: number, told: readonly Told[]): FieldProblem[] => told.map(([field, message]) => ({ pointer: `#/moves/${place}/${field}`, message }));

/** What is wrong with the moves as they stand. */
export function checkMoves(kind: PostKind, moves: readonly Move[]): void {
  if (moves.length === 0) throw new InvalidRequest('A post needs a move', [{ pointer: '#/moves', message: 'must hold one move at least' }]);
  refuseAny(
    moves.flatMap((move, place) => {
      const ends = moveProblem(kind, move);
      const size = millionthsOf(move.quantity);
      const told: Told[] = ends === null ? [] : [[ends.field, ends.message]];
      if (size === null || size <= 0n) told.push(['quantity', `must be a number above zero with six decimals at most, not "${move.quantity}"`]);
      if (move.fromPlaceId !== null && move.unitCost != null) told.push(['unitCost', 'is of what comes from outside: leave it out']);
      if (move.expiresOn != null && move.lot === null) told.push(['lot', 'what has an expiry has a lot: say which']);
      return at(place, told);
    }),
  );
}

/** What is wrong with them by what is on record. */
export function checkKnown(kind: PostKind, known: Known, moves: readonly Move[]): void {
  const places = new Map(known.places.map((place) => [place.id, place]));
  refuseAny(
    moves.flatMap((move, place) =>
      at(place, [...endsOf(kind, move, places), ...itemOf(known, move), ...ownerOf(known, move), ...partOf(known, move), ...lotOf(known, move)]),
    ),
  );
}

function endsOf(kind: PostKind, move: Move, places: ReadonlyMap<string, PlaceNow>): Told[] {
  const told = (['fromPlaceId', 'toPlaceId'] as const).flatMap((field): Told[] => {
    const id = move[field];
    const place = id === null ? undefined : places.get(id);
    if (id === null || place?.ended === false) return [];
    return [[field, place === undefined ? 'there is no such place' : `${place.name} has ended: no stock is moved there any more`]];
  });
  const from = places.get(move.fromPlaceId ?? '');
  const isUse = kind === 'use' || kind === 'consume' || kind === 'send' || kind === 'repair';
  if (from?.kind === 'quarantine' && isUse) told.push(['fromPlaceId', `${from.name} is a quarantine: transfer what was released to a store first`]);
  // What is on the way, or out for repair, is entered by what came of it.
  const own = { transit: ['send', 'arrive', 'reverse'], repair: ['repair', 'repaired', 'correct', 'count', 'scrap', 'reverse'] } as const;
  for (const [field, place] of [
    ['fromPlaceId', from],
    ['toPlaceId', places.get(move.toPlaceId ?? '')],
  ] as const) {
    const only: readonly PostKind[] | null = place?.kind === 'transit' || place?.kind === 'repair' ? own[place.kind] : null;
    if (only !== null && !only.includes(kind))
      told.push([field, `what is at ${place?.name} is moved by its ${place?.kind === 'transit' ? 'transfer' : 'repair'}: enter there what came`]);
  }
  if (kind === 'consume' && from !== undefined && from.kind !== 'site')
    told.push(['fromPlaceId', 'what is consumed on site lies at a place of a site; what a job takes is entered with the job']);
  return told;
}

const itemOf = ({ items }: Known, { itemId }: Move): Told[] => (items.some(({ id }) => id === itemId) ? [] : [['itemId', 'there is no such item']]);

function ownerOf({ owners }: Known, { owner }: Move): Told[] {
  if (owner === undefined || owner.kind === 'us') return owner?.id == null ? [] : [['ownerId', 'what is ours has no other owner: leave it out']];
  return owners.some(({ id, kind }) => id === owner.id && kind === owner.kind) ? [] : [['ownerId', `there is no such ${owner.kind}`]];
}

function partOf({ parts, places }: Known, { itemId, partId, quantity, fromPlaceId }: Move): Told[] {
  if (partId === null) return [];
  const part = parts.find(({ id }) => id === partId);
  if (part === undefined || part.itemId !== itemId) return [['partId', 'there is no such part of this item']];
  if (part.serialNumber === null || !part.isOne) return [];
  if (millionthsOf(quantity) !== 1_000_000n) return [['quantity', `serial number ${part.serialNumber} is of one piece, not ${quantity}`]];
  if (part.placeId === null || part.placeId === fromPlaceId) return [];
  const from = places.find(({ id }) => id === fromPlaceId)?.name ?? 'outside';
  return [
    [
      'partId',
      `serial number ${part.serialNumber} lies at ${part.placeName} by the ledger, not at ${from}: take it from there, or correct the stock there first`,
    ],
  ];
}

function lotOf({ lots }: Known, { itemId, lot, expiresOn }: Move): Told[] {
  const known = lots.find((each) => each.itemId === itemId && each.code === lot);
  if (known === undefined || known.expiresOn === null || expiresOn == null || known.expiresOn === expiresOn) return [];
  return [['expiresOn', `lot ${lot} is on record as expiring on ${known.expiresOn}, not on ${expiresOn}: correct the lot, or give this one another name`]];
}
