import { useQueryClient } from '@tanstack/react-query';
import { useState } from 'react';
import { Link } from 'wouter';
import { api, query, type Schemas } from '../api/client.js';
import { ifMatch } from '../api/if-match.js';
import { day } from '../format.js';
import { useMay } from '../session/session.js';
import { addDays, siteToday } from '../site-time.js';
import { Choice } from '../ui/choice.js';
import { Dialog } from '../ui/dialog.js';
import { Field } from '../ui/field.js';
import { Pager, usePaging } from '../ui/paging.js';
import { Refusal } from '../ui/refusal.js';
import { SayDialog } from '../ui/say-dialog.js';
import { type Column, Sheet } from '../ui/sheet.js';
import { Empty, Loaded } from '../ui/states.js';
import { Trouble } from '../ui/trouble.js';
import { useCall } from '../ui/use-call.js';
import { useChoices } from '../ui/use-choices.js';
import { useEntries } from '../ui/use-entries.js';
import { lotWords as said } from '../words/lots.js';
import { words } from '../words.js';
import { amount } from './amount.js';
import { StoreHead } from './store-head.js';

type Lot = Schemas['LotView'];
const WITHIN = [30, 90, 180];
const today = () => siteToday(Date.now(), Intl.DateTimeFormat().resolvedOptions().timeZone);

const COLUMNS: readonly Column<Lot>[] = [
  {
    name: said.item,
    cell: ({ itemId, itemName, code }) => (
      <>
        <Link href={`/stock/items/${itemId}`}>{itemName}</Link>
        <small>{said.lot(code)}</small>
      </>
    ),
  },
  { name: said.useBy, short: true, cell: ({ expiresOn }) => <ByDay on={expiresOn} /> },
  { name: said.preserveBy, short: true, cell: ({ preserveBy }) => <ByDay on={preserveBy} /> },
  { name: said.onHand, numeric: true, cell: ({ onHand, unit }) => amount(onHand, unit) },
  { name: said.places, cell: ({ places }) => places.join(', ') || words.none },
  { name: said.state, cell: ({ held }) => (held === '' ? said.free : said.held(held)) },
];

function ByDay({ on }: { on: string | null }) {
  if (on === null || on >= today()) return day(on);
  return (
    <>
      <strong>{day(on)}</strong>
      <small>{said.past}</small>
    </>
  );
}

/** Lots in the order in which they must be used or preserved anew. */
export default function LotsPage() {
  const { keepStore } = useMay();
  const choices = useChoices<'within'>();
  const paging = usePaging(choices.key);
  const within = WITHIN.find((days) => String(days) === choices.of('within'));
  const asked = {
    limit: paging.limit,
    ...(within === undefined ? {} : { by: addDays(today(), within) }),
    ...(paging.cursor && { cursor: paging.cursor }),
  };
  const lots = query.useQuery('get', '/api/lots', { params: { query: asked } }, { placeholderData: (before) => before });
  const act: Column<Lot> = { name: said.act, cell: (lot) => <Acts lot={lot} keepStore={keepStore} /> };
  return (
    <>
      <StoreHead title={said.title} />
      <section className="block">
        <div className="tools no-print">
          <Choice
            label={said.within}
            value={within === undefined ? undefined : String(within)}
            options={WITHIN.map((days) => ({ value: String(days), label: said.days(days) }))}
            all={said.always}
            onChoose={(value) => choices.choose('within', value)}
          />
        </div>
        <Loaded of={lots} what={said.what}>
          {(list) =>
            list.items.length === 0 ? (
              <Empty title={said.none}>{said.noneWhy}</Empty>
            ) : (
              <>
                <Sheet caption={said.caption} columns={[...COLUMNS, act]} rows={list.items} keyOf={({ id }) => id} />
                <Pager paging={paging} list={list} what={said.what} />
              </>
            )
          }
        </Loaded>
      </section>
    </>
  );
}

function Acts({ lot, keepStore }: { lot: Lot; keepStore: boolean }) {
  const { call, isBusy, problem } = useCall();
  const [asks, setAsks] = useState<'preserve' | 'hold' | null>(null);
  const path = { params: { path: { id: lot.id } } };
  const edit = (held: string) => api.PATCH('/api/lots/{id}', { ...path, headers: ifMatch(lot), body: { held } });
  const of = <span className="unseen"> {said.lot(lot.code)}</span>;
  return (
    <>
      <div className="decide no-print">
        {lot.preserveBy !== null && (
          <button type="button" onClick={() => setAsks('preserve')}>
            {said.preserve}
            {of}
          </button>
        )}
        {keepStore && (
          <button type="button" disabled={isBusy} onClick={() => (lot.held === '' ? setAsks('hold') : void call(() => edit('')))}>
            {lot.held === '' ? said.hold : said.release}
            {of}
          </button>
        )}
      </div>
      <Refusal problem={problem} />
      {asks === 'hold' && (
        <SayDialog
          title={said.holdTitle(lot.code)}
          button={said.hold}
          say={{ label: said.holdSay, need: said.holdNeed }}
          send={edit}
          onClose={() => setAsks(null)}
        >
          <p>{said.holdWhy}</p>
        </SayDialog>
      )}
      {asks === 'preserve' && (
        <Dialog title={said.preserveTitle(lot.code)} onClose={() => setAsks(null)}>
          {(close) => <PreserveForm lot={lot} close={close} />}
        </Dialog>
      )}
    </>
  );
}

function PreserveForm({ lot, close }: { lot: Lot; close: () => void }) {
  const client = useQueryClient();
  const form = useEntries({
    start: { on: today() },
    check: ({ on }) => (on === '' ? { on: said.needDay } : {}),
    send: (body) => api.POST('/api/lots/{id}/preserved', { params: { path: { id: lot.id } }, body }),
    onDone: () => {
      close();
      void client.invalidateQueries();
    },
  });
  return (
    <form noValidate onSubmit={form.submit}>
      <Trouble troubles={form.troubles} attempt={form.attempt} />
      <Field {...form.field('on')} label={said.preservedOn}>
        {(props) => <input {...props} {...form.control('on')} type="date" />}
      </Field>
      <div className="row">
        <button type="submit" className="main-button" disabled={form.isSending}>
          {said.preserve}
        </button>
        <button type="button" onClick={close}>
          {words.cancel}
        </button>
      </div>
    </form>
  );
}
