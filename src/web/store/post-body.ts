import type { Schemas } from '../api/client.js';
import { storeWords } from '../words/store.js';
import type { ChosenItem } from './find-item.js';

export const ACTIONS = ['receive', 'transfer', 'consume', 'return', 'scrap', 'correct'] as const;
export type Action = (typeof ACTIONS)[number];

/** All that can be typed on the page that moves stock. */
export interface PostEntries {
  readonly fromPlaceId: string;
  readonly toPlaceId: string;
  readonly direction: string;
  readonly item: string;
  readonly quantity: string;
  readonly lot: string;
  /** Empty: ours; else "client" or "supplier" and which */
  readonly owner: string;
  readonly expiresOn: string;
  readonly unitCost: string;
  readonly note: string;
  readonly wrongCount: string;
  readonly expiredReason: string;
}
export type PostField = keyof PostEntries;

const said = storeWords.post;
const isOurs = ({ owner }: PostEntries) => owner === '';
const isFound = ({ direction }: PostEntries) => direction !== 'less';

/** The ends of the move that are asked for. */
export function endsOf(action: Action, entries: PostEntries): { from: boolean; to: boolean } {
  if (action === 'receive' || action === 'return') return { from: false, to: true };
  if (action === 'transfer') return { from: true, to: true };
  return action === 'correct' && isFound(entries) ? { from: false, to: true } : { from: true, to: false };
}

/** Whose it is is asked of what comes in: what leaves is taken from where it lies. */
export const asksOwner = (action: Action, entries: PostEntries): boolean => !endsOf(action, entries).from;

type Move = Schemas['StockPostDto']['moves'][number];

function ownerOf(action: Action, entries: PostEntries): Pick<Move, 'owner' | 'ownerId'> {
  const [kind, id] = entries.owner.split(' ');
  if (!asksOwner(action, entries) || (kind !== 'client' && kind !== 'supplier') || id === undefined) return {};
  return { owner: kind, ownerId: id };
}

export const needsNote = (action: Action) => action === 'scrap' || action === 'correct';

/** What needs a change before the entry is sent. */
export function checkPost(action: Action, entries: PostEntries, item: ChosenItem | null): Partial<Record<PostField, string>> {
  const ends = endsOf(action, entries);
  const quantity = entries.quantity.trim().replace(',', '.');
  return {
    ...(ends.from && entries.fromPlaceId === '' ? { fromPlaceId: said.needPlace } : {}),
    ...(ends.to && entries.toPlaceId === '' ? { toPlaceId: said.needPlace } : {}),
    ...(item === null ? { item: said.needItem } : {}),
    ...(/^\d{1,12}(\.\d{1,6})?$/.test(quantity) && Number(quantity) > 0 ? {} : { quantity: said.needQuantity }),
    ...(needsNote(action) && entries.note.trim() === '' ? { note: said.needNote } : {}),
  };
}

/** The entry as it is sent, without its id and time. */
export function postBody(action: Action, entries: PostEntries, item: ChosenItem): Omit<Schemas['StockPostDto'], 'id' | 'at'> {
  const ends = endsOf(action, entries);
  const comesIn = !ends.from;
  const lot = entries.lot.trim();
  const expiredReason = entries.expiredReason.trim();
  return {
    kind: action,
    note: entries.note.trim(),
    moves: [
      {
        itemId: item.itemId,
        lot: lot === '' ? null : lot,
        partId: item.partId,
        quantity: entries.quantity.trim().replace(',', '.'),
        fromPlaceId: ends.from ? entries.fromPlaceId : null,
        toPlaceId: ends.to ? entries.toPlaceId : null,
        expiresOn: comesIn && entries.expiresOn !== '' ? entries.expiresOn : null,
        ...ownerOf(action, entries),
        unitCost: action === 'receive' && isOurs(entries) && entries.unitCost.trim() !== '' ? entries.unitCost.trim().replace(',', '.') : null,
      },
    ],
    countWasWrong: entries.wrongCount === 'yes',
    ...(expiredReason === '' ? {} : { expiredReason }),
  };
}
