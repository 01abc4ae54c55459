import { useQueryClient } from '@tanstack/react-query';
import { useRef, useState } from 'react';
import { api, type Schemas } from '../api/client.js';
import { newUuid } from '../new-uuid.js';
import { Field } from '../ui/field.js';
import { Trouble } from '../ui/trouble.js';
import { useEntries } from '../ui/use-entries.js';
import { storeWords } from '../words/store.js';
import { transferWords as said } from '../words/transfers.js';
import { words } from '../words.js';
import { amount } from './amount.js';
import type { ChosenItem } from './find-item.js';
import { ItemField } from './item-field.js';
import { PlaceCautions } from './place-cautions.js';
import { usePlaces } from './use-places.js';

type Name = 'fromPlaceId' | 'toPlaceId' | 'item' | 'quantity' | 'expectedOn' | 'note';
interface Line {
  readonly key: string;
  readonly item: ChosenItem;
  readonly quantity: string;
}

const START: Record<Name, string> = { fromPlaceId: '', toPlaceId: '', item: '', quantity: '', expectedOn: '', note: '' };

/** Goods for another place: item after item is scanned onto a list, and all of it leaves at once. */
export function SendForm() {
  const client = useQueryClient();
  const places = usePlaces().filter(({ kind }) => kind !== 'transit' && kind !== 'repair');
  const input = useRef<HTMLInputElement>(null);
  const entered = useRef<{ text: string; id: string; at: string }>(undefined);
  const [chosen, setChosen] = useState<ChosenItem | null>(null);
  const [lines, setLines] = useState<readonly Line[]>([]);
  const form = useEntries<Name, Schemas['TransferView']>({
    start: START,
    check: ({ fromPlaceId, toPlaceId }) => ({
      ...(fromPlaceId === '' ? { fromPlaceId: storeWords.post.needPlace } : {}),
      ...(toPlaceId === '' ? { toPlaceId: storeWords.post.needPlace } : {}),
      ...(lines.length === 0 ? { item: said.needLine } : {}),
    }),
    fieldAt: (pointer) => (/^#\/(lines|moves)/.test(pointer) ? 'item' : (pointer.split('/')[1] ?? pointer)),
    send: ({ fromPlaceId, toPlaceId, expectedOn, note }) => {
      const body = {
        fromPlaceId,
        toPlaceId,
        expectedOn: expectedOn === '' ? null : expectedOn,
        note: note.trim(),
        lines: lines.map(({ item: { itemId, lot, partId }, quantity }) => ({ itemId, lot: lot === '' ? null : lot, partId, quantity })),
      };
      const text = JSON.stringify(body);
      if (entered.current?.text !== text) entered.current = { text, id: newUuid(), at: new Date().toISOString() };
      const { id, at } = entered.current;
      return api.POST('/api/transfers', { body: { id, at, ...body } });
    },
    onDone: () => {
      entered.current = undefined;
      setLines([]);
      form.setEntries(START);
      void client.invalidateQueries();
    },
  });
  const { quantity } = form.entries;
  const size = quantity.trim().replace(',', '.');
  const add = () => {
    if (chosen === null || !(Number(size) > 0)) return;
    setLines((before) => [...before, { key: newUuid(), item: chosen, quantity: size }]);
    setChosen(null);
    form.setEntries((before) => ({ ...before, quantity: '' }));
    input.current?.focus();
  };
  const onChosen = (item: ChosenItem | null) => {
    setChosen(item);
    if (item === null) return;
    form.setEntries((before) => ({ ...before, quantity: item.quantity }));
    document.getElementById(form.field('quantity').id)?.focus();
  };
  const place = (name: 'fromPlaceId' | 'toPlaceId', label: string) => (
    <Field {...form.field(name)} label={label}>
      {(props) => (
        <select {...props} {...form.control(name)}>
          <option value="">{words.choose}</option>
          {places.map(({ id, name: placeName }) => (
            <option key={id} value={id}>
              {placeName}
            </option>
          ))}
        </select>
      )}
    </Field>
  );
  return (
    <form noValidate onSubmit={form.submit}>
      <Trouble troubles={form.troubles} attempt={form.attempt} />
      <div className="fields">
        {place('fromPlaceId', said.from)}
        {place('toPlaceId', said.to)}
        <Field {...form.field('expectedOn')} label={said.expectedOn}>
          {(props) => <input {...props} {...form.control('expectedOn')} type="date" />}
        </Field>
        <Field {...form.field('note')} label={said.note}>
          {(props) => <input {...props} {...form.control('note')} autoComplete="off" />}
        </Field>
      </div>
      <PlaceCautions placeId={form.entries.toPlaceId || undefined} />
      <ItemField {...form.field('item')} input={input} chosen={chosen} onChosen={onChosen} />
      <Field {...form.field('quantity')} label={chosen === null ? storeWords.post.quantity : storeWords.post.quantityIn(storeWords.unitName(chosen.unit))}>
        {(props) => (
          <div className="post-item">
            <input
              {...props}
              {...form.control('quantity')}
              inputMode="decimal"
              autoComplete="off"
              onKeyDown={(event) => {
                if (event.key !== 'Enter') return;
                event.preventDefault();
                add();
              }}
            />
            <button type="button" onClick={add} disabled={chosen === null || !(Number(size) > 0)}>
              {said.add}
            </button>
          </div>
        )}
      </Field>
      {lines.length > 0 && (
        <>
          <h3>{said.list}</h3>
          <ul className="post-done">
            {lines.map(({ key, item, quantity: many }) => (
              <li key={key}>
                <span>
                  {amount(many, item.unit)} {storeWords.post.chosen(item.name, item.code)} <small>{item.lot}</small>
                </span>
                <button type="button" onClick={() => setLines((before) => before.filter((line) => line.key !== key))}>
                  {said.takeOut}
                  <span className="unseen"> {item.name}</span>
                </button>
              </li>
            ))}
          </ul>
        </>
      )}
      <div className="row">
        <button type="submit" className="main-button" disabled={form.isSending}>
          {said.send}
        </button>
      </div>
    </form>
  );
}
