import { useState } from 'react';
import { Link } from 'wouter';
import { api, query, type Schemas } from '../api/client.js';
import { ifMatch } from '../api/if-match.js';
import type { RecordField } from '../registry/record-fields.js';
import { RecordForm } from '../registry/record-form.js';
import { useMay } from '../session/session.js';
import { siteToday } from '../site-time.js';
import { SayDialog } from '../ui/say-dialog.js';
import { type Column, Sheet } from '../ui/sheet.js';
import { Empty, Loaded } from '../ui/states.js';
import { storeWords } from '../words/store.js';
import { words } from '../words.js';
import { StoreHead } from './store-head.js';

type Place = Schemas['PlaceView'];
const said = storeWords.places;
const KINDS = ['store', 'van', 'site', 'quarantine', 'repair'] as const;

/** Where stock lies: stores, vans, places at sites. */
export default function PlacesPage() {
  const { keepStore } = useMay();
  const places = query.useQuery('get', '/api/places', { params: { query: { limit: 200 } } });
  return (
    <>
      <StoreHead title={said.title} />
      <section className="block">
        <Loaded of={places} what={said.what}>
          {({ items }) =>
            items.length === 0 ? (
              <Empty title={said.none}>{said.noneWhy}</Empty>
            ) : (
              <Sheet caption={said.caption} columns={keepStore ? [...COLUMNS, END] : COLUMNS} rows={items} keyOf={({ id }) => id} />
            )
          }
        </Loaded>
      </section>
      {keepStore && <NewPlace />}
    </>
  );
}

const COLUMNS: readonly Column<Place>[] = [
  { name: said.name, cell: ({ id, name }) => <Link href={`/stock?place=${id}`}>{name}</Link> },
  { name: said.kind, cell: ({ kind }) => said.kinds[kind] },
  { name: said.whose, cell: ({ siteName, personName }) => siteName ?? personName ?? words.none },
  { name: said.note, wide: true, cell: ({ note }) => note },
];
const END: Column<Place> = { name: said.end, cell: (place) => (place.kind === 'transit' ? words.none : <EndPlace place={place} />) };

function EndPlace({ place }: { place: Place }) {
  const [isOpen, setOpen] = useState(false);
  return (
    <>
      <button type="button" onClick={() => setOpen(true)}>
        {said.end}
        <span className="unseen"> {place.name}</span>
      </button>
      {isOpen && (
        <SayDialog
          title={said.endOf(place.name)}
          button={said.endButton}
          send={() =>
            api.POST('/api/places/{id}/end', {
              params: { path: { id: place.id } },
              headers: ifMatch(place),
              body: { on: siteToday(Date.now(), Intl.DateTimeFormat().resolvedOptions().timeZone) },
            })
          }
          onClose={() => setOpen(false)}
        >
          <p>{said.endWhy}</p>
        </SayDialog>
      )}
    </>
  );
}

function NewPlace() {
  const staff = query.useQuery('get', '/api/staff');
  const sites = query.useQuery('get', '/api/sites', { params: { query: { limit: 200 } } });
  const option = ({ id, name }: { id: string; name: string }) => ({ value: id, label: name });
  const fields: readonly RecordField[] = [
    { name: 'name', label: said.name, required: true },
    { name: 'kind', label: said.kind, options: KINDS.map((value) => ({ value, label: said.kinds[value] })), start: 'store' },
    {
      name: 'siteId',
      label: said.site,
      options: [{ value: '', label: words.choose }, ...(sites.data?.items ?? []).map(option)],
      required: true,
      only: { field: 'kind', is: ['site'] },
    },
    {
      name: 'personId',
      label: said.person,
      options: [{ value: '', label: words.choose }, ...(staff.data ?? []).map(option)],
      required: true,
      only: { field: 'kind', is: ['van'] },
    },
    { name: 'note', label: said.note, type: 'lines' },
  ];
  return (
    <section className="block no-print">
      <h2>{said.make}</h2>
      <RecordForm fields={fields} button={said.add} send={(body: Schemas['PlaceDto']) => api.POST('/api/places', { body })} />
    </section>
  );
}
