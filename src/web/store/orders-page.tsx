import { Link } from 'wouter';
import { query, type Schemas } from '../api/client.js';
import { day, number } from '../format.js';
import { Choice } from '../ui/choice.js';
import { Opened } from '../ui/opened.js';
import { Pager, usePaging } from '../ui/paging.js';
import { type Column, Sheet } from '../ui/sheet.js';
import { Empty, Loaded } from '../ui/states.js';
import { useChoices } from '../ui/use-choices.js';
import { orderWords as said } from '../words/orders.js';
import { storeWords } from '../words/store.js';
import { words } from '../words.js';
import { NewOrder } from './new-order.js';
import { StoreHead } from './store-head.js';

type Order = Schemas['OrderInListView'];
type Awaited = Schemas['AwaitedOrderView'];
const STATES = ['draft', 'approved', 'sent', 'closed', 'cancelled'] as const;

const name = ({ id, no, supplierName }: Order) => (
  <>
    <Link href={`/orders/${id}`}>{said.name(no)}</Link>
    <small>{supplierName}</small>
  </>
);

const COLUMNS: readonly Column<Order>[] = [
  { name: storeWords.order, cell: name },
  {
    name: said.state,
    cell: ({ state, arrived }) => (
      <>
        {said.states[state]}
        {state === 'sent' && <small>{said.arrived[arrived]}</small>}
      </>
    ),
  },
  { name: said.to, cell: ({ placeName }) => placeName },
  { name: said.lines, numeric: true, cell: ({ lines }) => number(lines) },
  {
    name: said.value,
    numeric: true,
    cell: ({ value, currency, withoutPrice }) => (
      <>
        {said.money(number(Number(value), 2), currency)}
        {withoutPrice > 0 && <small>{said.withoutPrice(withoutPrice)}</small>}
      </>
    ),
  },
  { name: said.made, short: true, cell: ({ madeAt }) => day(madeAt.slice(0, 10)) },
  { name: said.neededOn, short: true, cell: ({ neededOn }) => day(neededOn) },
];

const AWAITED: readonly Column<Awaited>[] = [
  { name: storeWords.order, cell: ({ order }) => name(order) },
  {
    name: said.awaited.expected,
    cell: ({ expectedOn, by, lateDays, afterNeedDays }) => (
      <>
        {lateDays > 0 ? <strong>{day(expectedOn)}</strong> : day(expectedOn)}
        <small>{said.awaited.by[by]}</small>
        {lateDays > 0 && <small>{said.awaited.late(lateDays)}</small>}
        {afterNeedDays !== null && afterNeedDays > 0 && <small>{said.awaited.afterNeed(afterNeedDays)}</small>}
      </>
    ),
  },
  { name: said.neededOn, short: true, cell: ({ order }) => day(order.neededOn) },
  {
    name: said.awaited.week,
    numeric: true,
    cell: ({ withinWeek }) => (withinWeek === null ? said.awaited.longDue : `${number(withinWeek * 100)} %`),
  },
  { name: said.to, cell: ({ order }) => order.placeName },
];

/** What is awaited, with what is late first, and every order. */
export default function OrdersPage() {
  const choices = useChoices<'state'>();
  const paging = usePaging(choices.key);
  const state = STATES.find((one) => one === choices.of('state'));
  const awaited = query.useQuery('get', '/api/orders/awaited');
  const asked = { limit: paging.limit, ...(state && { state }), ...(paging.cursor && { cursor: paging.cursor }) };
  const orders = query.useQuery('get', '/api/orders', { params: { query: asked } }, { placeholderData: (before) => before });
  return (
    <>
      <StoreHead title={said.title} />
      {awaited.data !== undefined && awaited.data.items.length > 0 && (
        <section className="block">
          <h2>{said.awaited.title}</h2>
          <Sheet caption={said.awaited.caption} columns={AWAITED} rows={awaited.data.items} keyOf={({ order }) => order.id} />
        </section>
      )}
      <section className="block">
        <div className="tools no-print">
          <Choice
            label={said.state}
            value={state}
            options={STATES.map((value) => ({ value, label: said.states[value] }))}
            all={words.all}
            onChoose={(value) => choices.choose('state', value)}
          />
        </div>
        <Loaded of={orders} what={said.what}>
          {(list) =>
            list.items.length === 0 ? (
              <Empty title={said.none}>{said.noneWhy}</Empty>
            ) : (
              <>
                <Sheet caption={said.caption} columns={COLUMNS} rows={list.items} keyOf={({ id }) => id} />
                <Pager paging={paging} list={list} what={said.what} />
              </>
            )
          }
        </Loaded>
      </section>
      <section className="block no-print">
        <Opened summary={said.make} what={said.one}>
          <NewOrder />
        </Opened>
      </section>
    </>
  );
}
