import { api, query, type Schemas } from '../api/client.js';
import { number, written } from '../format.js';
import type { RecordField } from '../registry/record-fields.js';
import { RecordForm } from '../registry/record-form.js';
import { Opened } from '../ui/opened.js';
import { type Column, Sheet } from '../ui/sheet.js';
import { Loaded } from '../ui/states.js';
import { cardWords } from '../words/stock-card.js';
import { storeWords } from '../words/store.js';
import { words } from '../words.js';

type Offer = Schemas['OfferView'];
type LeadTime = Schemas['LeadTimeView'];
const said = cardWords.offers;
const MOST = 200;

/** Who sells the item, in what, for how much, and how long it takes to come. */
export function CardOffers({ itemId, unit }: { itemId: string; unit: string }) {
  const offers = query.useQuery('get', '/api/offers', { params: { query: { itemId, limit: MOST } } });
  const times = query.useQuery('get', '/api/items/{id}/lead-times', { params: { path: { id: itemId } } });
  return (
    <section className="block">
      <h2>{said.title}</h2>
      <Loaded of={offers} what={said.what}>
        {({ items }) =>
          items.length === 0 ? (
            <p className="aside">{said.none}</p>
          ) : (
            <Sheet caption={said.caption} columns={columnsOf(times.data?.items ?? [])} rows={items} keyOf={({ id }) => id} />
          )
        }
      </Loaded>
      <Opened summary={said.make} what={said.what}>
        <NewOffer itemId={itemId} unit={unit} />
      </Opened>
    </section>
  );
}

function columnsOf(times: readonly LeadTime[]): readonly Column<Offer>[] {
  const comesIn = ({ supplierId, leadDays }: Offer) => {
    const learnt = times.find((time) => time.supplierId === supplierId);
    if (learnt !== undefined && learnt.came > 0) return said.learnt(number(learnt.p50), number(learnt.p90), number(learnt.came));
    return leadDays === null ? words.none : said.stated(number(leadDays));
  };
  return [
    { name: said.supplier, cell: ({ supplierName }) => supplierName },
    { name: said.code, cell: ({ supplierCode }) => supplierCode || words.none },
    {
      name: said.unit,
      cell: ({ purchaseUnit, unitsPerPurchase, useUnit }) => (
        <>
          {storeWords.unitName(purchaseUnit)}
          {purchaseUnit !== useUnit && <small>{said.holds(written(Number(unitsPerPurchase)), storeWords.unitName(useUnit))}</small>}
        </>
      ),
    },
    { name: said.pack, numeric: true, cell: ({ pack }) => written(Number(pack)) },
    { name: said.least, numeric: true, cell: ({ minimumQuantity }) => written(Number(minimumQuantity)) },
    { name: said.lead, cell: comesIn },
    { name: said.price, numeric: true, cell: ({ price, currency }) => (price === null ? words.none : `${number(Number(price), 2)} ${currency}`) },
  ];
}

function NewOffer({ itemId, unit }: { itemId: string; unit: string }) {
  const suppliers = query.useQuery('get', '/api/suppliers', { params: { query: { limit: MOST } } });
  const fields: readonly RecordField[] = [
    {
      name: 'supplierId',
      label: said.supplier,
      required: true,
      options: [{ value: '', label: words.choose }, ...(suppliers.data?.items ?? []).map(({ id, name }) => ({ value: id, label: name }))],
    },
    { name: 'supplierCode', label: said.code, empty: 'left out' },
    { name: 'purchaseUnit', label: said.purchaseUnit, hint: said.purchaseHint, required: true, start: unit },
    { name: 'unitsPerPurchase', label: said.unitsPerPurchase, empty: 'left out' },
    { name: 'pack', label: said.pack, empty: 'left out' },
    { name: 'minimumQuantity', label: said.minimum, empty: 'left out' },
    { name: 'leadDays', label: said.leadDays, type: 'number', empty: 'left out' },
    { name: 'price', label: said.price, empty: 'left out' },
  ];
  return (
    <RecordForm
      fields={fields}
      button={said.add}
      send={(body: Omit<Schemas['OfferDto'], 'itemId'>) => api.POST('/api/offers', { body: { ...body, itemId } })}
    />
  );
}
