import { type Caller, type FieldProblem, InvalidRequest, type Reader } from '../app/index.js';
import { vanOf } from './places.repository.js';

/** A technician moves what comes from, or goes to, their own van. */
export async function checkOwnVan(
  tx: Reader,
  caller: Caller,
  moves: readonly { readonly fromPlaceId: string | null; readonly toPlaceId: string | null }[],
): Promise<void> {
  if (caller.role !== 'technician') return;
  const van = await ownVan(tx, caller);
  const problems = moves.flatMap(({ fromPlaceId, toPlaceId }, at): FieldProblem[] => {
    const field = toPlaceId === null ? 'fromPlaceId' : 'toPlaceId';
    const message = `one end must be your own van, ${van.name}: other stock is moved by a storekeeper or manager`;
    return fromPlaceId === van.id || toPlaceId === van.id ? [] : [{ pointer: `#/moves/${at}/${field}`, message }];
  });
  if (problems.length > 0) throw new InvalidRequest('The post moves stock that is not yours to move', problems);
}

/** The same, where one of these places must be the van. */
export async function mayMoveFrom(tx: Reader, caller: Caller, placeIds: readonly string[]): Promise<void> {
  if (caller.role !== 'technician') return;
  const van = await ownVan(tx, caller);
  if (!placeIds.includes(van.id)) {
    throw new InvalidRequest(`One of the places must be your own van, ${van.name}: other stock is moved and counted by a storekeeper or manager`);
  }
}

async function ownVan(tx: Reader, { id }: Caller): Promise<{ id: string; name: string }> {
  const van = await vanOf(tx, id);
  if (van === null) throw new InvalidRequest('You have no van on record. A storekeeper or manager can give you one');
  return van;
}
