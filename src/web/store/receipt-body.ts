import type { Schemas } from '../api/client.js';

/** By "field line", such as `quantity 2`. */
export type ReceiveEntries = Readonly<Record<string, string>>;
type Line = Pick<Schemas['OrderLineView'], 'id' | 'no'>;
type Outcome = NonNullable<Schemas['ReceiptLineDto']['outcome']>;

const of = (entries: ReceiveEntries, field: string, { no }: Line) => (entries[`${field} ${no}`] ?? '').trim();
const came = (lines: readonly Line[], entries: ReceiveEntries) => lines.filter((line) => of(entries, 'quantity', line) !== '');

/** The receipt as it is sent, without its id and time: of what was left empty nothing came. */
export function receiptBody(lines: readonly Line[], entries: ReceiveEntries): Omit<Schemas['ReceiptDto'], 'id' | 'at'> {
  return {
    deliveryNote: (entries.deliveryNote ?? '').trim(),
    note: '',
    keepMore: entries.keepMore === 'yes',
    ...ownerOf(entries.owner ?? ''),
    lines: came(lines, entries).map((line) => {
      const outcome = of(entries, 'outcome', line) as Outcome;
      const lot = of(entries, 'lot', line);
      const expiresOn = of(entries, 'expiresOn', line);
      return {
        lineId: line.id,
        outcome,
        quantity: of(entries, 'quantity', line).replace(',', '.'),
        lot: lot === '' ? null : lot,
        expiresOn: expiresOn === '' ? null : expiresOn,
      };
    }),
  };
}

/** From a choice such as `client` with its id; empty: ours. */
function ownerOf(choice: string): Pick<Schemas['ReceiptDto'], 'owner' | 'ownerId'> {
  const [owner, ownerId = null] = choice.split(' ');
  if (owner === 'supplier') return { owner };
  return owner === 'client' ? { owner, ownerId } : {};
}

/** The field that a pointer of the service such as `#/lines/0/lot` means. */
export function receiptFieldAt(lines: readonly Line[], entries: ReceiveEntries, pointer: string): string {
  const [, list, at, field = 'quantity'] = pointer.split('/');
  const line = list === 'lines' ? came(lines, entries)[Number(at)] : undefined;
  if (line === undefined) return list === 'ownerId' ? 'owner' : (list ?? pointer);
  return `${field === 'lineId' ? 'quantity' : field} ${line.no}`;
}
