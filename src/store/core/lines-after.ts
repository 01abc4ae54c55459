import type { BalanceChanges, NewLine, StoredLine } from './balance-changes.js';

/** Lines that are not stored yet have made-up ids, which no stored one has. */
const isNew = ({ id }: StoredLine) => id.startsWith('new ');

/**
 * The lines as they stand after these changes: what began comes last, as it would be stored.
 *
 * @example linesAfter([], { changed: [], gone: [], added: [] }, 'post') // => []
 */
export function linesAfter(lines: readonly StoredLine[], { changed, gone, added }: BalanceChanges, of: string): StoredLine[] {
  const left = new Set(gone);
  const now = new Map(changed.map(({ id, onHand }) => [id, onHand]));
  const stay = lines.filter(({ id }) => !left.has(id)).map((line) => ({ ...line, onHand: now.get(line.id) ?? line.onHand }));
  return [...stay, ...added.map((line, at) => ({ ...line, id: `new ${of} ${at}`, expiresOn: null, held: false }))];
}

/**
 * What is to be stored so that the lines stand as they do after several posts.
 *
 * @example changesBetween([], []).added // => []
 */
export function changesBetween(before: readonly StoredLine[], after: readonly StoredLine[]): BalanceChanges {
  const now = new Map(after.map((line) => [line.id, line]));
  return {
    changed: before.flatMap(({ id, onHand }) => {
      const line = now.get(id);
      return line === undefined || line.onHand === onHand ? [] : [{ id, onHand: line.onHand }];
    }),
    gone: before.filter(({ id }) => !now.has(id)).map(({ id }) => id),
    added: after.filter(isNew).map(toNewLine),
  };
}

const toNewLine = ({ placeId, itemId, lot, owner, ownerId, partId, onHand }: StoredLine): NewLine => ({
  placeId,
  itemId,
  lot,
  owner,
  ownerId,
  partId,
  onHand,
});
