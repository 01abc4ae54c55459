import { useRef, useState } from 'react';
import { api, type Schemas } from '../api/client.js';
import { moment } from '../format.js';
import { newUuid } from '../new-uuid.js';
import { RecordForm } from '../registry/record-form.js';
import { Opened } from '../ui/opened.js';
import { SayDialog } from '../ui/say-dialog.js';
import { type Column, Sheet } from '../ui/sheet.js';
import { orderWords } from '../words/orders.js';
import { words } from '../words.js';
import { amount } from './amount.js';
import { placeOptions, usePlaces } from './use-places.js';

type Order = Schemas['OrderView'];
type Receipt = Schemas['ReceiptView'];
const zone = () => Intl.DateTimeFormat().resolvedOptions().timeZone;
const { receive } = orderWords;

/** What came, and a way back where it was entered wrongly. */
export function Receipts({ order }: { order: Order }) {
  const said = orderWords.receipts;
  const columns: readonly Column<Receipt>[] = [
    { name: said.at, cell: ({ at, by }) => `${moment(at, zone())}, ${by}` },
    { name: said.note, cell: ({ deliveryNote }) => deliveryNote || words.none },
    {
      name: said.what,
      wide: true,
      cell: ({ lines }) =>
        lines.map(({ lineId, outcome, quantity, lot }, n) => {
          const line = order.lines.find(({ id }) => id === lineId);
          const text = said.line(amount(quantity, line?.useUnit ?? 'C62'), line?.itemName ?? '', receive.outcomes[outcome]);
          return (
            <span key={n} className="line">
              {[text, ...(lot === null ? [] : [`${receive.lot} ${lot}`])].join(', ')}
            </span>
          );
        }),
    },
    { name: said.takeBack, cell: (receipt) => (receipt.takenBackAt === null ? <TakeBack order={order} receipt={receipt} /> : said.takenBack) },
  ];
  return (
    <section className="block">
      <h2>{said.title}</h2>
      <Sheet caption={said.caption} columns={columns} rows={order.receipts} keyOf={({ id }) => id} />
    </section>
  );
}

function TakeBack({ order, receipt }: { order: Order; receipt: Receipt }) {
  const said = orderWords.receipts;
  const [id, setId] = useState<string | null>(null);
  return (
    <>
      <button type="button" className="no-print" onClick={() => setId(newUuid())}>
        {said.takeBack}
        <span className="unseen"> {moment(receipt.at, zone())}</span>
      </button>
      {id !== null && (
        <SayDialog
          title={said.takeBackTitle}
          button={said.takeBack}
          say={{ label: orderWords.why, need: orderWords.needWhy }}
          send={(reason) =>
            api.POST('/api/orders/{id}/receipts/{receiptId}/take-back', {
              params: { path: { id: order.id, receiptId: receipt.id } },
              body: { id, reason },
            })
          }
          onClose={() => setId(null)}
        >
          <p>{said.takeBackWhy}</p>
        </SayDialog>
      )}
    </>
  );
}

interface ReturnEntries {
  readonly lineId: string;
  readonly outcome: Schemas['ReturnLineDto']['outcome'];
  readonly quantity: string;
  readonly placeId: string;
  readonly lot?: string;
  readonly replaced: string;
  readonly reason: string;
}

/** What goes back to the supplier out of stock. */
export function Returns({ order }: { order: Order }) {
  const said = orderWords.returns;
  const places = usePlaces();
  const sent = useRef<{ text: string; id: string; at: string }>(undefined);
  const fields = [
    { name: 'lineId', label: said.line, options: order.lines.map(({ id, itemName }) => ({ value: id, label: itemName })), start: order.lines[0]?.id ?? '' },
    { name: 'quantity', label: orderWords.quantity, required: true },
    { name: 'placeId', label: said.from, options: [{ value: '', label: words.choose }, ...placeOptions(places)], start: order.placeId, required: true },
    { name: 'lot', label: receive.lot, empty: 'left out' },
    {
      name: 'outcome',
      label: said.outcome,
      options: (['good', 'damaged', 'wrong'] as const).map((value) => ({ value, label: value })),
      start: 'good',
    },
    {
      name: 'replaced',
      label: said.replaced,
      options: [
        { value: 'yes', label: said.replacedYes },
        { value: 'no', label: said.replacedNo },
      ],
      start: 'yes',
    },
    { name: 'reason', label: said.reason, required: true, type: 'lines' },
  ] as const;
  return (
    <section className="block">
      <h2>{said.title}</h2>
      {order.returns.map(({ id, at, by, reason, lines }) => (
        <p key={id}>
          {moment(at, zone())}, {by}:{' '}
          {lines
            .map(({ lineId, quantity, replaced }) => {
              const line = order.lines.find((each) => each.id === lineId);
              return said.said(amount(quantity, line?.useUnit ?? 'C62'), line?.itemName ?? '', replaced);
            })
            .join('; ')}
          . {reason}
        </p>
      ))}
      <Opened summary={said.make} what={said.title}>
        <RecordForm
          fields={fields}
          button={said.button}
          send={({ reason, replaced, ...line }: ReturnEntries) => {
            const body = { reason, lines: [{ ...line, quantity: line.quantity.replace(',', '.'), replaced: replaced === 'yes' }] };
            const text = JSON.stringify(body);
            if (sent.current?.text !== text) sent.current = { text, id: newUuid(), at: new Date().toISOString() };
            const { id, at } = sent.current;
            return api.POST('/api/orders/{id}/returns', { params: { path: { id: order.id } }, body: { id, at, ...body } });
          }}
        />
      </Opened>
    </section>
  );
}

type Change = Schemas['OrderChangeView'];
const done = orderWords.changes;
const CHANGES: readonly Column<Change>[] = [
  { name: done.at, cell: ({ at }) => moment(at, zone()) },
  { name: done.by, cell: ({ by }) => by },
  { name: done.what, wide: true, cell: ({ what, detail }) => [what, detail].filter(Boolean).join(': ') },
];

export function Changes({ order }: { order: Order }) {
  return (
    <section className="block">
      <h2>{done.title}</h2>
      <Sheet caption={done.caption} columns={CHANGES} rows={order.changes} keyOf={({ at, what }) => `${at} ${what}`} />
    </section>
  );
}
