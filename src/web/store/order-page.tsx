import { Link } from 'wouter';
import { query, type Schemas } from '../api/client.js';
import { day, number } from '../format.js';
import type { Fact } from '../ui/page-head.js';
import { type Column, Sheet } from '../ui/sheet.js';
import { Loaded } from '../ui/states.js';
import { orderWords as said } from '../words/orders.js';
import { storeWords } from '../words/store.js';
import { words } from '../words.js';
import { amount } from './amount.js';
import { OrderActs } from './order-acts.js';
import { AddLine, TakeOut } from './order-draft.js';
import { Changes, Receipts, Returns } from './order-history.js';
import { OrderLetter } from './order-letter.js';
import { ReceiveForm } from './order-receive.js';
import { StoreHead } from './store-head.js';

type Order = Schemas['OrderView'];
type Line = Schemas['OrderLineView'];

/** One purchase order, from its draft to the last piece that came. */
export default function OrderPage({ orderId }: { orderId: string }) {
  const order = query.useQuery('get', '/api/orders/{id}', { params: { path: { id: orderId } } });
  return (
    <Loaded of={order} what={said.one}>
      {(found) => (
        <>
          <StoreHead title={said.name(found.no)} facts={factsOf(found)}>
            <p>{found.supplierName}</p>
          </StoreHead>
          <section className="block">
            <OrderActs order={found} />
            <h2>{said.lines}</h2>
            <Sheet caption={said.lines} columns={columnsOf(found)} rows={found.lines} keyOf={({ id }) => id} />
            {found.note !== '' && <p className="text">{found.note}</p>}
            <p className="row no-print">
              <a className="target" href={`/api/orders/${found.id}/order.pdf`} download>
                {said.pdf}
              </a>
              <a className="target" href={`/api/orders/${found.id}/lines.csv`} download>
                {said.csv}
              </a>
            </p>
            {found.state === 'draft' && <AddLine order={found} />}
          </section>
          {found.state === 'sent' && <ReceiveForm key={`${found.version} ${found.receipts.length}`} order={found} />}
          {(found.state === 'approved' || found.state === 'sent') && <OrderLetter order={found} />}
          {found.receipts.length > 0 && <Receipts order={found} />}
          {found.receipts.length > 0 && <Returns order={found} />}
          <Changes order={found} />
        </>
      )}
    </Loaded>
  );
}

function factsOf({ state, arrived, placeName, value, currency, promisedOn }: Order): Fact[] {
  return [
    { name: said.state, value: state === 'sent' ? `${said.states[state]}, ${said.arrived[arrived]}` : said.states[state] },
    { name: said.to, value: placeName },
    { name: said.value, value: said.money(number(Number(value), 2), currency) },
    ...(promisedOn === null ? [] : [{ name: said.promised, value: day(promisedOn) }]),
  ];
}

function columnsOf(order: Order): readonly Column<Line>[] {
  const isOut = order.state === 'sent' || order.state === 'closed';
  return [
    {
      name: storeWords.item,
      cell: ({ itemId, itemName, itemCode, supplierCode, reason }) => (
        <>
          <Link href={`/stock/items/${itemId}`}>{itemName}</Link>
          <small>{[itemCode, supplierCode].filter(Boolean).join(', ')}</small>
          {reason !== '' && <small>{reason}</small>}
        </>
      ),
    },
    {
      name: said.ordered,
      numeric: true,
      cell: ({ quantity, unit, ordered, useUnit }) => (
        <>
          {amount(quantity, unit)}
          {unit !== 'C62' && unit !== useUnit && <small>{amount(ordered, useUnit)}</small>}
        </>
      ),
    },
    { name: said.price, numeric: true, cell: ({ price }) => (price === null ? words.none : number(Number(price), 2)) },
    { name: said.neededOn, short: true, cell: ({ neededOn }) => day(neededOn) },
    ...(isOut ? ARRIVED : []),
    ...(order.state === 'draft' ? [{ name: storeWords.takeOut, cell: (line: Line) => <TakeOut order={order} line={line} /> }] : []),
  ];
}

const ARRIVED: readonly Column<Line>[] = [
  {
    name: said.came,
    numeric: true,
    cell: ({ good, damaged, wrong, over, useUnit }) => (
      <>
        {amount(good, useUnit)}
        {Number(damaged) > 0 && <small>{said.damaged(amount(damaged, useUnit))}</small>}
        {Number(wrong) > 0 && <small>{said.wrong(amount(wrong, useUnit))}</small>}
        {Number(over) > 0 && <small>{said.over(amount(over, useUnit))}</small>}
      </>
    ),
  },
  { name: said.open, numeric: true, cell: ({ open, useUnit }) => (Number(open) === 0 ? words.none : amount(open, useUnit)) },
];
