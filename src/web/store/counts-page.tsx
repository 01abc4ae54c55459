import { Link, useLocation } from 'wouter';
import { api, query, type Schemas } from '../api/client.js';
import { moment } from '../format.js';
import type { RecordField } from '../registry/record-fields.js';
import { RecordForm } from '../registry/record-form.js';
import { useSession } from '../session/session.js';
import { Pager, usePaging } from '../ui/paging.js';
import { type Column, Sheet } from '../ui/sheet.js';
import { Empty, Loaded } from '../ui/states.js';
import { countWords as said } from '../words/counts.js';
import { words } from '../words.js';
import { StoreHead } from './store-head.js';
import { placeOptions, usePlaces } from './use-places.js';

type Count = Schemas['CountView'];
const zone = () => Intl.DateTimeFormat().resolvedOptions().timeZone;

const COLUMNS: readonly Column<Count>[] = [
  { name: said.place, cell: ({ id, placeName }) => <Link href={`/counts/${id}`}>{placeName}</Link> },
  { name: said.state, cell: ({ state }) => said.states[state] },
  { name: said.started, cell: ({ startedAt, startedBy }) => said.by(moment(startedAt, zone()), startedBy) },
  { name: said.ended, cell: ({ endedAt, endedBy }) => (endedAt === null ? words.none : said.by(moment(endedAt, zone()), endedBy ?? '')) },
];

/** Counts of places, and how one begins. */
export default function CountsPage() {
  const paging = usePaging('');
  const asked = { limit: paging.limit, ...(paging.cursor && { cursor: paging.cursor }) };
  const counts = query.useQuery('get', '/api/counts', { params: { query: asked } }, { placeholderData: (before) => before });
  return (
    <>
      <StoreHead title={said.title} />
      <section className="block">
        <Loaded of={counts} what={said.what}>
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
      <Begin />
    </>
  );
}

function Begin() {
  const [, setPath] = useLocation();
  const { id: me, role } = useSession();
  const places = usePlaces().filter(({ kind, personId }) => kind !== 'transit' && (role !== 'technician' || personId === me));
  const fields: readonly RecordField[] = [
    { name: 'placeId', label: said.place, required: true, options: [{ value: '', label: words.choose }, ...placeOptions(places)] },
    {
      name: 'blind',
      label: said.blind,
      options: [
        { value: 'yes', label: said.blindYes },
        { value: 'no', label: said.blindNo },
      ],
      start: 'yes',
    },
    { name: 'linesOnPage', label: said.linesOnPage, type: 'number', start: '20', empty: 'left out' },
  ];
  return (
    <section className="block no-print">
      <h2>{said.start}</h2>
      <RecordForm
        fields={fields}
        button={said.begin}
        send={async ({ blind, linesOnPage = 20, ...body }: { placeId: string; blind: string; linesOnPage?: number }) => {
          const answer = await api.POST('/api/counts', { body: { ...body, blind: blind === 'yes', linesOnPage } });
          if (answer.data !== undefined) setPath(`/counts/${answer.data.id}`);
          return answer;
        }}
      />
    </section>
  );
}
