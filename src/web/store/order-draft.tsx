import { useQueryClient } from '@tanstack/react-query';
import { useRef, useState } from 'react';
import { api, type Schemas } from '../api/client.js';
import { ifMatch } from '../api/if-match.js';
import { Field } from '../ui/field.js';
import { Opened } from '../ui/opened.js';
import { Refusal } from '../ui/refusal.js';
import { Trouble } from '../ui/trouble.js';
import { useCall } from '../ui/use-call.js';
import { useEntries } from '../ui/use-entries.js';
import { orderWords as said } from '../words/orders.js';
import { storeWords } from '../words/store.js';
import type { ChosenItem } from './find-item.js';
import { ItemField } from './item-field.js';

type Order = Schemas['OrderView'];
type Line = Schemas['OrderLineView'];

/** The lines as they are sent back: all of them take the place of all before. */
const sentBack = ({ itemId, quantity, unit, price, neededOn, reason, proposalId }: Line) => ({
  itemId,
  quantity,
  unit: unit as NonNullable<Schemas['OrderLineDto']['unit']>,
  ...(price === null ? {} : { price }),
  neededOn,
  reason,
  proposalId,
});

export function TakeOut({ order, line }: { order: Order; line: Line }) {
  const { call, isBusy, problem } = useCall();
  const lines = order.lines.filter(({ id }) => id !== line.id).map(sentBack);
  if (lines.length === 0) return null;
  return (
    <>
      <button
        type="button"
        className="no-print"
        disabled={isBusy}
        onClick={() => void call(() => api.PATCH('/api/orders/{id}', { params: { path: { id: order.id } }, headers: ifMatch(order), body: { lines } }))}
      >
        {storeWords.takeOut}
        <span className="unseen"> {line.itemName}</span>
      </button>
      <Refusal problem={problem} />
    </>
  );
}

export function AddLine({ order }: { order: Order }) {
  return (
    <Opened summary={storeWords.addLine} what={said.one}>
      <AddForm order={order} />
    </Opened>
  );
}

function AddForm({ order }: { order: Order }) {
  const client = useQueryClient();
  const input = useRef<HTMLInputElement>(null);
  const [chosen, setChosen] = useState<ChosenItem | null>(null);
  const form = useEntries<'item' | 'quantity', Order>({
    start: { item: '', quantity: '' },
    check: ({ quantity }) => ({
      ...(chosen === null ? { item: said.needItem } : {}),
      ...(Number(quantity.replace(',', '.')) > 0 ? {} : { quantity: storeWords.post.needQuantity }),
    }),
    send: ({ quantity }) => {
      if (chosen === null) throw new Error('checked before');
      const lines = [...order.lines.map(sentBack), { itemId: chosen.itemId, quantity: quantity.trim().replace(',', '.') }];
      return api.PATCH('/api/orders/{id}', { params: { path: { id: order.id } }, headers: ifMatch(order), body: { lines } });
    },
    onDone: () => {
      setChosen(null);
      form.setEntries({ item: '', quantity: '' });
      input.current?.focus();
      void client.invalidateQueries();
    },
  });
  return (
    <form noValidate onSubmit={form.submit}>
      <Trouble troubles={form.troubles} attempt={form.attempt} />
      <ItemField {...form.field('item')} input={input} chosen={chosen} onChosen={setChosen} />
      <Field {...form.field('quantity')} label={said.quantity}>
        {(props) => <input {...props} {...form.control('quantity')} className="short" inputMode="decimal" autoComplete="off" />}
      </Field>
      <div className="row">
        <button type="submit" className="main-button" disabled={form.isSending}>
          {storeWords.addLine}
        </button>
      </div>
    </form>
  );
}
