import { useRef, useState } from 'react';
import { useLocation } from 'wouter';
import { api, query, type Schemas } from '../api/client.js';
import { Field } from '../ui/field.js';
import { Trouble } from '../ui/trouble.js';
import { useEntries } from '../ui/use-entries.js';
import { useRequestKey } from '../ui/use-request-key.js';
import { orderWords as said } from '../words/orders.js';
import { storeWords } from '../words/store.js';
import { words } from '../words.js';
import type { ChosenItem } from './find-item.js';
import { ItemField } from './item-field.js';
import { usePlaces } from './use-places.js';

type Name = 'supplierId' | 'placeId' | 'item' | 'quantity';

/** An order that the reorder list does not ask for: its first line; others follow on its page. */
export function NewOrder() {
  const [, setPath] = useLocation();
  const keyOf = useRequestKey();
  const input = useRef<HTMLInputElement>(null);
  const [chosen, setChosen] = useState<ChosenItem | null>(null);
  const suppliers = query.useQuery('get', '/api/suppliers', { params: { query: { limit: 200 } } });
  const places = usePlaces();
  const form = useEntries<Name, Schemas['OrderView']>({
    start: { supplierId: '', placeId: '', item: '', quantity: '' },
    check: ({ supplierId, placeId, quantity }) => ({
      ...(supplierId === '' ? { supplierId: said.needSupplier } : {}),
      ...(placeId === '' ? { placeId: storeWords.post.needPlace } : {}),
      ...(chosen === null ? { item: said.needItem } : {}),
      ...(Number(quantity.replace(',', '.')) > 0 ? {} : { quantity: storeWords.post.needQuantity }),
    }),
    send: ({ supplierId, placeId, quantity }) => {
      if (chosen === null) throw new Error('checked before');
      const body = { supplierId, placeId, lines: [{ itemId: chosen.itemId, quantity: quantity.trim().replace(',', '.') }] };
      return api.POST('/api/orders', { params: { header: keyOf(body) }, body });
    },
    onDone: (order) => order !== undefined && setPath(`/orders/${order.id}`),
  });
  const choice = (name: Name, label: string, options: readonly { id: string; name: string }[]) => (
    <Field {...form.field(name)} label={label}>
      {(props) => (
        <select {...props} {...form.control(name)}>
          <option value="">{words.choose}</option>
          {options.map((option) => (
            <option key={option.id} value={option.id}>
              {option.name}
            </option>
          ))}
        </select>
      )}
    </Field>
  );
  return (
    <form noValidate onSubmit={form.submit}>
      <p className="hint">{said.makeHint}</p>
      <Trouble troubles={form.troubles} attempt={form.attempt} />
      <div className="fields">
        {choice('supplierId', said.supplier, suppliers.data?.items ?? [])}
        {choice(
          'placeId',
          said.place,
          places.filter(({ kind }) => kind !== 'transit' && kind !== 'repair'),
        )}
      </div>
      <ItemField {...form.field('item')} input={input} chosen={chosen} onChosen={setChosen} />
      <Field {...form.field('quantity')} label={said.quantity}>
        {(props) => <input {...props} {...form.control('quantity')} className="short" inputMode="decimal" autoComplete="off" />}
      </Field>
      <div className="row">
        <button type="submit" className="main-button" disabled={form.isSending}>
          {said.add}
        </button>
      </div>
    </form>
  );
}
