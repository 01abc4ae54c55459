import { Link } from 'wouter';
import { ITEM_KINDS } from '../../shared/item-kinds.js';
import { api, query, type Schemas } from '../api/client.js';
import { RecordForm } from '../registry/record-form.js';
import { useMay } from '../session/session.js';
import { Choice } from '../ui/choice.js';
import { FindBox } from '../ui/find-box.js';
import { Opened } from '../ui/opened.js';
import { Pager, usePaging } from '../ui/paging.js';
import { type Column, Sheet } from '../ui/sheet.js';
import { Empty, Loaded } from '../ui/states.js';
import { useChoices } from '../ui/use-choices.js';
import { storeWords } from '../words/store.js';
import { words } from '../words.js';
import { amount } from './amount.js';
import { PlaceCautions } from './place-cautions.js';
import { StoreHead } from './store-head.js';
import { placeOptions, usePlaces } from './use-places.js';

type Line = Schemas['AvailableView'];
const said = storeWords.stock;

const unlessNone = (quantity: string, unit: string) => (Number(quantity) === 0 ? words.none : amount(quantity, unit));

const COLUMNS: readonly Column<Line>[] = [
  {
    name: storeWords.item,
    cell: (line) => (
      <>
        <Link href={`/stock/items/${line.itemId}`}>{line.itemName}</Link>
        <small>{line.itemCode}</small>
      </>
    ),
  },
  { name: storeWords.place, cell: ({ placeName }) => placeName },
  { name: said.onHand, numeric: true, cell: (line) => amount(line.onHand, line.unit) },
  { name: said.reserved, numeric: true, cell: (line) => unlessNone(line.reserved, line.unit) },
  { name: said.available, numeric: true, cell: (line) => amount(line.available, line.unit) },
  {
    name: said.onOrder,
    numeric: true,
    cell: ({ onOrder, onTheWay, unit }) => (
      <>
        {unlessNone(onOrder, unit)}
        {Number(onTheWay) > 0 && <small>{said.onTheWay(amount(onTheWay, unit))}</small>}
      </>
    ),
  },
  { name: said.short, numeric: true, cell: (line) => (Number(line.short) === 0 ? words.none : <strong>{amount(line.short, line.unit)}</strong>) },
];

const ITEM_FIELDS = [
  { name: 'code', label: said.code, required: true },
  { name: 'name', label: said.name, required: true },
  { name: 'kind', label: said.kind, options: ITEM_KINDS.map((value) => ({ value, label: value })), start: 'other' },
  { name: 'unit', label: said.unit, hint: said.unitHint, required: true, start: 'C62' },
] as const;

/** What may be used at each place, and the way to each item. */
export default function StockPage() {
  const { keepStore } = useMay();
  const choices = useChoices<'place' | 'find'>();
  const places = usePlaces();
  const [place, find] = [choices.of('place'), choices.of('find')];
  return (
    <>
      <StoreHead title={said.title} />
      <section className="block">
        <div className="block-head no-print">
          <div className="tools">
            <FindBox value={find ?? ''} onFind={(text) => choices.choose('find', text)} hint={storeWords.itemHint} />
            <Choice
              label={storeWords.place}
              value={place}
              options={placeOptions(places)}
              all={storeWords.everyPlace}
              onChoose={(value) => choices.choose('place', value)}
            />
          </div>
          <div className="row">
            <a className="target" href={`/api/stock/available.csv${place === undefined ? '' : `?placeId=${place}`}`} download>
              {storeWords.table}
            </a>
            <a className="target" href={`/api/stock.csv${place === undefined ? '' : `?placeId=${place}`}`} download>
              {said.byLot}
            </a>
          </div>
        </div>
        <PlaceCautions placeId={place} />
        {find === undefined ? <Lines place={place} /> : <Found find={find} />}
      </section>
      {keepStore && (
        <section className="block no-print">
          <Opened summary={said.newItem} what={said.newItem}>
            <RecordForm fields={ITEM_FIELDS} button={said.add} send={(body: Schemas['ItemDto']) => api.POST('/api/items', { body })} />
          </Opened>
        </section>
      )}
    </>
  );
}

function Lines({ place }: { place: string | undefined }) {
  const paging = usePaging(place ?? '');
  const asked = { limit: paging.limit, ...(place && { placeId: place }), ...(paging.cursor && { cursor: paging.cursor }) };
  const lines = query.useQuery('get', '/api/stock/available', { params: { query: asked } }, { placeholderData: (before) => before });
  return (
    <Loaded of={lines} what={said.what}>
      {(list) =>
        list.items.length === 0 ? (
          <Empty title={said.none}>{said.noneWhy}</Empty>
        ) : (
          <>
            <p className="hint">{said.note}</p>
            <Sheet caption={said.caption} columns={COLUMNS} rows={list.items} keyOf={({ itemId, placeId }) => `${itemId} ${placeId}`} />
            <Pager paging={paging} list={list} what={said.what} />
          </>
        )
      }
    </Loaded>
  );
}

function Found({ find }: { find: string }) {
  const paging = usePaging(find);
  const asked = { limit: paging.limit, find, ...(paging.cursor && { cursor: paging.cursor }) };
  const items = query.useQuery('get', '/api/items', { params: { query: asked } }, { placeholderData: (before) => before });
  return (
    <Loaded of={items} what={said.foundWhat}>
      {(list) =>
        list.items.length === 0 ? (
          <Empty title={said.noItem}>{said.noItemWhy}</Empty>
        ) : (
          <>
            <h2>{said.found}</h2>
            <ul className="places">
              {list.items.map(({ id, name, code }) => (
                <li key={id}>
                  <Link className="target" href={`/stock/items/${id}`}>
                    {name}
                  </Link>
                  <small>{code}</small>
                </li>
              ))}
            </ul>
            <Pager paging={paging} list={list} what={said.foundWhat} />
          </>
        )
      }
    </Loaded>
  );
}
