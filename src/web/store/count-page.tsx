import { useRef, useState } from 'react';
import { api, query, type Schemas } from '../api/client.js';
import { moment } from '../format.js';
import { newUuid } from '../new-uuid.js';
import { Choice } from '../ui/choice.js';
import { SayDialog } from '../ui/say-dialog.js';
import { type Column, Sheet } from '../ui/sheet.js';
import { Empty, Loaded } from '../ui/states.js';
import { useChoices } from '../ui/use-choices.js';
import { countWords as said } from '../words/counts.js';
import { words } from '../words.js';
import { amount } from './amount.js';
import { CountExtra } from './count-extra.js';
import { CountForm } from './count-form.js';
import { StoreHead } from './store-head.js';

type Count = Schemas['CountDetailView'];
type Line = Schemas['CountLineView'];
const zone = () => Intl.DateTimeFormat().resolvedOptions().timeZone;

const COLUMNS: readonly Column<Line>[] = [
  {
    name: said.item,
    cell: ({ itemName, itemCode }) => (
      <>
        {itemName}
        <small>{itemCode}</small>
      </>
    ),
  },
  { name: said.lot, cell: ({ lot, serialNumber }) => [lot, serialNumber].filter((one) => one !== null).join(', ') || words.none },
  {
    name: said.standing,
    cell: ({ standing, looks }) => (
      <>
        {standing === 'off' ? <strong>{said.standings.off}</strong> : said.standings[standing]}
        {looks > 0 && <small>{said.looks(looks)}</small>}
      </>
    ),
  },
  { name: said.counted, numeric: true, cell: ({ counted, unit }) => (counted === null ? words.none : amount(counted, unit)) },
  { name: said.book, numeric: true, cell: ({ book, unit }) => (book === null ? words.none : amount(book, unit)) },
  { name: said.found, cell: () => <span className="unseen">{words.none}</span> },
];

/** One count: page by page, what lies there; where a line is off, another look. */
export default function CountPage({ countId }: { countId: string }) {
  const choices = useChoices<'page' | 'left'>();
  const page = Number(choices.of('page') ?? '1');
  const toDo = choices.of('left') === 'yes';
  const asked = { page, ...(toDo ? { toDo } : {}) };
  const found = query.useQuery('get', '/api/counts/{id}', { params: { path: { id: countId }, query: asked } }, { placeholderData: (before) => before });
  return (
    <Loaded of={found} what={said.one}>
      {(of) => (
        <>
          <StoreHead
            title={said.of(of.placeName)}
            facts={[
              { name: said.state, value: said.states[of.state] },
              { name: said.started, value: said.by(moment(of.startedAt, zone()), of.startedBy) },
            ]}
          />
          <section className="block">
            <div className="block-head no-print">
              <div className="tools">
                <Choice
                  label={said.choosePage}
                  value={page === 1 ? undefined : String(page)}
                  options={Array.from({ length: Math.max(0, of.pages - 1) }, (_, n) => ({ value: String(n + 2), label: said.page(n + 2) }))}
                  all={said.page(1)}
                  onChoose={(value) => choices.choose('page', value)}
                />
                <label className="tick">
                  <input type="checkbox" checked={toDo} onChange={({ target }) => choices.choose('left', target.checked ? 'yes' : '')} />
                  <span>{said.toDo}</span>
                </label>
              </div>
              <button type="button" onClick={() => print()}>
                {said.print}
              </button>
            </div>
            <p className="count">{said.pageOf(page, of.pages)}</p>
            {of.lines.length === 0 ? (
              <Empty title={said.allDone}>{said.allDoneWhy}</Empty>
            ) : (
              <>
                {of.state === 'open' && <CountForm key={`${page} ${toDo}`} count={of} />}
                <details className="more" open={of.state !== 'open'}>
                  <summary>{said.lines}</summary>
                  <Sheet caption={said.lines} columns={of.state === 'open' ? COLUMNS : COLUMNS.slice(0, -1)} rows={of.lines} keyOf={({ id }) => id} />
                </details>
              </>
            )}
            {of.state === 'open' && <CountExtra countId={of.id} />}
          </section>
          {of.state === 'open' && <End count={of} />}
        </>
      )}
    </Loaded>
  );
}

function End({ count }: { count: Count }) {
  const [asks, setAsks] = useState<'close' | 'drop' | null>(null);
  const id = useRef(newUuid());
  const path = { params: { path: { id: count.id } } };
  return (
    <section className="block no-print">
      <div className="row">
        <button type="button" className="main-button" onClick={() => setAsks('close')}>
          {said.close}
        </button>
        <button type="button" onClick={() => setAsks('drop')}>
          {said.drop}
        </button>
      </div>
      {asks === 'close' && (
        <SayDialog
          title={said.closeTitle}
          button={said.close}
          send={() => api.POST('/api/counts/{id}/close', { ...path, body: { id: id.current } })}
          onClose={() => setAsks(null)}
        >
          <p>{said.closeWhy}</p>
        </SayDialog>
      )}
      {asks === 'drop' && (
        <SayDialog title={said.dropTitle} button={said.drop} send={() => api.POST('/api/counts/{id}/drop', path)} onClose={() => setAsks(null)}>
          <p>{said.dropWhy}</p>
        </SayDialog>
      )}
    </section>
  );
}
