import { useState } from 'react';
import { Link } from 'wouter';
import { api, query, type Schemas } from '../api/client.js';
import { moment, number } from '../format.js';
import { Choice } from '../ui/choice.js';
import { Pager, usePaging } from '../ui/paging.js';
import { Refusal } from '../ui/refusal.js';
import { Sheet } from '../ui/sheet.js';
import { Empty, Loaded } from '../ui/states.js';
import { useCall } from '../ui/use-call.js';
import { useChoices } from '../ui/use-choices.js';
import { reorderWords as said } from '../words/reorder.js';
import { storeWords } from '../words/store.js';
import { JointOrders } from './joint-orders.js';
import { MakeOrders } from './make-orders.js';
import { REORDER_COLUMNS } from './reorder-columns.js';
import { StoreHead } from './store-head.js';
import { placeOptions, usePlaces } from './use-places.js';

const SHOWN = ['to do', 'accepted', 'dismissed', 'idle', 'all'] as const;

/** The storekeeper's start: what to order, how much, from whom, by which day and why. */
export default function ReorderPage() {
  const choices = useChoices<'show' | 'place'>();
  const paging = usePaging(choices.key);
  const places = usePlaces().filter(({ kind }) => kind === 'store' || kind === 'van' || kind === 'site');
  const show = SHOWN.find((one) => one === choices.of('show')) ?? 'to do';
  const place = choices.of('place');
  const narrowed = { show, ...(place && { placeId: place }) };
  const list = query.useQuery(
    'get',
    '/api/reorder',
    { params: { query: { limit: Math.min(paging.limit, 25), ...narrowed, ...(paging.cursor && { cursor: paging.cursor }) } } },
    { placeholderData: (before) => before },
  );
  return (
    <>
      <StoreHead title={said.title} />
      <section className="block">
        <div className="block-head no-print">
          <div className="tools">
            <Choice
              label={said.show}
              value={show === 'to do' ? undefined : show}
              options={SHOWN.slice(1).map((value) => ({ value, label: said.shown[value] }))}
              all={said.shown['to do']}
              onChoose={(value) => choices.choose('show', value)}
            />
            <Choice
              label={storeWords.place}
              value={place}
              options={placeOptions(places)}
              all={storeWords.everyPlace}
              onChoose={(value) => choices.choose('place', value)}
            />
          </div>
          <a className="target" href={`/api/reorder/lines.csv?${new URLSearchParams(narrowed)}`} download>
            {storeWords.table}
          </a>
        </div>
        {show === 'accepted' && <MakeOrders placeId={place} />}
        <Loaded of={list} what={said.what}>
          {(found) => (
            <>
              <Computed list={found} />
              {found.items.length > 0 ? (
                <Sheet caption={said.caption} columns={REORDER_COLUMNS} rows={found.items} keyOf={({ id }) => id} />
              ) : choices.key === '' ? (
                found.computedAt !== null && <Empty title={said.nothing}>{said.nothingWhy}</Empty>
              ) : (
                <Empty title={said.noMatch}>{said.noMatchWhy}</Empty>
              )}
              <Pager paging={paging} list={{ next: found.next }} what={said.what} />
            </>
          )}
        </Loaded>
        <p className="no-print">
          <Link href="/stock/post">{storeWords.nav.post}</Link>
        </p>
      </section>
      {(show === 'to do' || show === 'accepted') && <JointOrders placeId={place} />}
    </>
  );
}

/** How many, as of when, and a way not to wait for the next time. */
function Computed({ list }: { list: Schemas['ReorderPageView'] }) {
  const { call, isBusy, problem } = useCall();
  const [isAsked, setAsked] = useState(false);
  const zone = Intl.DateTimeFormat().resolvedOptions().timeZone;
  return (
    <>
      <div className="row">
        <p role="status" className="count">
          {list.computedAt === null ? said.notComputed : [said.count(number(list.total)), said.computed(moment(list.computedAt, zone))].join(', ')}
          {isAsked && ` ${said.asked}`}
        </p>
        {!isAsked && (
          <button
            type="button"
            className="no-print"
            disabled={isBusy}
            onClick={() =>
              void call(
                () => api.POST('/api/reorder/recompute'),
                () => setAsked(true),
              )
            }
          >
            {said.again}
          </button>
        )}
      </div>
      <Refusal problem={problem} />
    </>
  );
}
