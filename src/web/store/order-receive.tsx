import { useQueryClient } from '@tanstack/react-query';
import { useRef } from 'react';
import { api, type Schemas } from '../api/client.js';
import { written } from '../format.js';
import { newUuid } from '../new-uuid.js';
import { Field } from '../ui/field.js';
import { Trouble } from '../ui/trouble.js';
import { useEntries } from '../ui/use-entries.js';
import { orderWords } from '../words/orders.js';
import { storeWords } from '../words/store.js';
import { type ReceiveEntries, receiptBody, receiptFieldAt } from './receipt-body.js';
import { useOwners } from './use-owners.js';

type Order = Schemas['OrderView'];
const said = orderWords.receive;
const OUTCOMES = ['good', 'damaged', 'wrong'] as const;

/** A delivery or a part of one, line by line, with what was not as it should be. */
export function ReceiveForm({ order }: { order: Order }) {
  const client = useQueryClient();
  const owners = useOwners(true);
  const entered = useRef<{ text: string; id: string; at: string; entries: ReceiveEntries }>(undefined);
  const open = order.lines.filter((line) => Number(line.open) > 0 || Number(line.over) > 0);
  const shown = open.length > 0 ? open : order.lines;
  const start: ReceiveEntries = Object.fromEntries([
    ['deliveryNote', ''],
    ['owner', ''],
    ['keepMore', ''],
    ...shown.flatMap(({ no }) => [
      [`quantity ${no}`, ''],
      [`lot ${no}`, ''],
      [`expiresOn ${no}`, ''],
      [`outcome ${no}`, 'good'],
    ]),
  ]);
  const form = useEntries<string, Order>({
    start,
    check: (entries) => (receiptBody(shown, entries).lines.length === 0 ? { [`quantity ${shown[0]?.no}`]: said.nothing } : {}),
    fieldAt: (pointer) => receiptFieldAt(shown, entered.current?.entries ?? {}, pointer),
    labelOf: (name) => shown.find(({ no }) => name.endsWith(` ${no}`))?.itemName ?? name,
    send: (entries) => {
      const body = receiptBody(shown, entries);
      const text = JSON.stringify(body);
      if (entered.current?.text !== text) entered.current = { text, id: newUuid(), at: new Date().toISOString(), entries };
      const { id, at } = entered.current;
      return api.POST('/api/orders/{id}/receipts', { params: { path: { id: order.id } }, body: { id, at, ...body } });
    },
    onDone: () => void client.invalidateQueries(),
  });
  const fillAll = () =>
    form.setEntries((before) => ({ ...before, ...Object.fromEntries(open.map((line) => [`quantity ${line.no}`, String(Number(line.open))])) }));
  return (
    <section className="block no-print">
      <h2>{said.title}</h2>
      <p className="hint">{said.hint}</p>
      <form noValidate onSubmit={form.submit}>
        <Trouble troubles={form.troubles} attempt={form.attempt} />
        <p>
          <button type="button" onClick={fillAll}>
            {said.all}
          </button>
        </p>
        {shown.map(({ id, no, itemName, itemCode, open: rest, useUnit }) => (
          <fieldset key={id} className="group">
            <legend>{storeWords.post.chosen(itemName, itemCode)}</legend>
            <div className="fields">
              <Field {...form.field(`quantity ${no}`)} label={`${said.came} (${storeWords.unitName(useUnit)})`} hint={said.of(written(Number(rest)))}>
                {(props) => <input {...props} {...form.control(`quantity ${no}`)} inputMode="decimal" autoComplete="off" />}
              </Field>
              <Field {...form.field(`lot ${no}`)} label={said.lot}>
                {(props) => <input {...props} {...form.control(`lot ${no}`)} autoComplete="off" />}
              </Field>
              <Field {...form.field(`expiresOn ${no}`)} label={said.expiresOn}>
                {(props) => <input {...props} {...form.control(`expiresOn ${no}`)} type="date" />}
              </Field>
              <Field {...form.field(`outcome ${no}`)} label={said.outcome}>
                {(props) => (
                  <select {...props} {...form.control(`outcome ${no}`)}>
                    {OUTCOMES.map((outcome) => (
                      <option key={outcome} value={outcome}>
                        {said.outcomes[outcome]}
                      </option>
                    ))}
                  </select>
                )}
              </Field>
            </div>
          </fieldset>
        ))}
        <div className="fields">
          <Field {...form.field('deliveryNote')} label={said.deliveryNote}>
            {(props) => <input {...props} {...form.control('deliveryNote')} autoComplete="off" />}
          </Field>
          <Field {...form.field('owner')} label={said.owner}>
            {(props) => (
              <select {...props} {...form.control('owner')}>
                <option value="">{storeWords.post.ours}</option>
                <option value="supplier">{said.ofSupplier(order.supplierName)}</option>
                {owners
                  .filter(({ value }) => value.startsWith('client '))
                  .map(({ value, label }) => (
                    <option key={value} value={value}>
                      {label}
                    </option>
                  ))}
              </select>
            )}
          </Field>
        </div>
        <label className="tick">
          <input
            type="checkbox"
            checked={form.entries.keepMore === 'yes'}
            onChange={({ target }) => form.setEntries((before) => ({ ...before, keepMore: target.checked ? 'yes' : '' }))}
          />
          <span>{said.keepMore}</span>
        </label>
        <div className="row">
          <button type="submit" className="main-button" disabled={form.isSending}>
            {said.button}
          </button>
        </div>
      </form>
    </section>
  );
}
