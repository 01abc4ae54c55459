import { Link } from 'wouter';
import { query, type Schemas } from '../api/client.js';
import { day, number } from '../format.js';
import { type Column, Sheet } from '../ui/sheet.js';
import { Loaded } from '../ui/states.js';
import { reorderWords } from '../words/reorder.js';
import { words } from '../words.js';
import { amount } from './amount.js';

type Order = Schemas['JointOrderView'];
type Line = Schemas['JointLineView'];
const said = reorderWords.joint;

const money = (value: string, currency: string) => `${number(Number(value), 2)} ${currency}`;

function Lines({ lines, currency }: { lines: readonly Line[]; currency: string }) {
  if (lines.length === 0) return words.none;
  return lines.map(({ lineId, itemId, itemName, quantity, unit, value, orderBy }) => (
    <span key={lineId} className="line">
      <Link href={`/stock/items/${itemId}`}>{itemName}</Link>{' '}
      {[amount(quantity, unit), ...(value === null ? [] : [money(value, currency)]), ...(orderBy === null ? [] : [said.dueOn(day(orderBy))])].join(', ')}
    </span>
  ));
}

const COLUMNS: readonly Column<Order>[] = [
  {
    name: said.supplier,
    cell: ({ supplierName, placeName }) => (
      <>
        {supplierName}
        <small>{said.into(placeName)}</small>
      </>
    ),
  },
  { name: said.due, wide: true, cell: ({ due, currency }) => <Lines lines={due} currency={currency} /> },
  { name: said.withIt, wide: true, cell: ({ withIt, currency }) => <Lines lines={withIt} currency={currency} /> },
  {
    name: said.minimum,
    cell: ({ minimumOrder, valueDue, valueOfAll, short, withoutPrice, currency, withIt, toMinimum }) => (
      <>
        {said.worth(money(valueDue, currency), withIt.length + toMinimum.length === 0 ? null : money(valueOfAll, currency))}
        {minimumOrder !== null && (
          <small>{Number(short) > 0 ? said.short(money(short, currency), money(minimumOrder, currency)) : said.reached(money(minimumOrder, currency))}</small>
        )}
        {withoutPrice > 0 && <small>{said.withoutPrice(withoutPrice)}</small>}
      </>
    ),
  },
  { name: said.toMinimum, wide: true, cell: ({ toMinimum, currency }) => <Lines lines={toMinimum} currency={currency} /> },
];

/** Supplier by supplier: what is due, what it pays to order with it, and what reaches the minimum order. */
export function JointOrders({ placeId }: { placeId: string | undefined }) {
  const joint = query.useQuery('get', '/api/reorder/suppliers', { params: { query: placeId === undefined ? {} : { placeId } } });
  return (
    <Loaded of={joint} what={said.what}>
      {({ items }) =>
        items.length === 0 ? null : (
          <section className="block">
            <h2>{said.title}</h2>
            <p className="hint">{said.note}</p>
            <Sheet caption={said.caption} columns={COLUMNS} rows={items} keyOf={({ supplierId, placeId: place }) => `${supplierId} ${place}`} />
          </section>
        )
      }
    </Loaded>
  );
}
