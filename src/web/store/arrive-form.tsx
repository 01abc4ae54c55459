import { useQueryClient } from '@tanstack/react-query';
import { useRef } from 'react';
import { api, type Schemas } from '../api/client.js';
import { newUuid } from '../new-uuid.js';
import { Field } from '../ui/field.js';
import { Trouble } from '../ui/trouble.js';
import { useEntries } from '../ui/use-entries.js';
import { storeWords } from '../words/store.js';
import { transferWords as said } from '../words/transfers.js';
import { words } from '../words.js';
import { amount } from './amount.js';

type Transfer = Schemas['TransferView'];

/** What came of a transfer, all or a part of it, and what is given up. */
export function ArriveForm({ transfer, close }: { transfer: Transfer; close: () => void }) {
  const client = useQueryClient();
  const entered = useRef<{ text: string; id: string; at: string }>(undefined);
  const came = useRef<readonly number[]>([]);
  const start: Record<string, string> = {
    ...Object.fromEntries(transfer.lines.map(({ onTheWay }, n) => [`line ${n}`, Number(onTheWay) > 0 ? String(Number(onTheWay)) : ''])),
    giveUpRest: '',
    keepMore: '',
    note: '',
  };
  const form = useEntries<string, Transfer>({
    start,
    check: (entries) =>
      transfer.lines.every((_, n) => (entries[`line ${n}`] ?? '').trim() === '') && entries.giveUpRest !== 'yes' ? { 'line 0': said.nothing } : {},
    fieldAt: (pointer) => {
      const [, list, at] = pointer.split('/');
      return list === 'lines' ? `line ${came.current[Number(at)]}` : (list ?? pointer);
    },
    send: (entries) => {
      const typed = transfer.lines.flatMap((line, n) => {
        const quantity = (entries[`line ${n}`] ?? '').trim().replace(',', '.');
        return quantity === '' || Number(quantity) === 0 ? [] : [{ n, line, quantity }];
      });
      came.current = typed.map(({ n }) => n);
      const body = {
        note: (entries.note ?? '').trim(),
        lines: typed.map(({ line: { itemId, lot, partId, ownerId }, quantity }) => ({ itemId, lot, partId, ownerId, quantity })),
        giveUpRest: entries.giveUpRest === 'yes',
        keepMore: entries.keepMore === 'yes',
      };
      const text = JSON.stringify(body);
      if (entered.current?.text !== text) entered.current = { text, id: newUuid(), at: new Date().toISOString() };
      const { id, at } = entered.current;
      return api.POST('/api/transfers/{id}/arrivals', { params: { path: { id: transfer.id } }, body: { id, at, ...body } });
    },
    onDone: () => {
      close();
      void client.invalidateQueries();
    },
  });
  const tick = (name: 'giveUpRest' | 'keepMore', label: string) => (
    <label className="tick">
      <input
        type="checkbox"
        checked={form.entries[name] === 'yes'}
        onChange={({ target }) => form.setEntries((before) => ({ ...before, [name]: target.checked ? 'yes' : '' }))}
      />
      <span>{label}</span>
    </label>
  );
  return (
    <form noValidate onSubmit={form.submit}>
      <Trouble troubles={form.troubles} attempt={form.attempt} />
      {transfer.lines.map(({ itemId, itemName, lot, serialNumber, partId, ownerId, unit, onTheWay }, n) => (
        <Field
          key={[itemId, lot, partId, ownerId].join(' ')}
          {...form.field(`line ${n}`)}
          label={`${[itemName, lot, serialNumber].filter((one) => one !== null).join(', ')} (${storeWords.unitName(unit)})`}
          hint={said.ofWay(amount(onTheWay, unit))}
        >
          {(props) => <input {...props} {...form.control(`line ${n}`)} className="short" inputMode="decimal" autoComplete="off" />}
        </Field>
      ))}
      {tick('giveUpRest', said.giveUp)}
      {tick('keepMore', said.keepMore)}
      <Field {...form.field('note')} label={said.why}>
        {(props) => <textarea {...props} {...form.control('note')} rows={2} />}
      </Field>
      <div className="row">
        <button type="submit" className="main-button" disabled={form.isSending}>
          {said.arrive}
        </button>
        <button type="button" onClick={close}>
          {words.cancel}
        </button>
      </div>
    </form>
  );
}
