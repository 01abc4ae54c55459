import { useQueryClient } from '@tanstack/react-query';
import { useState } from 'react';
import { api, type Schemas } from '../api/client.js';
import { ifMatch } from '../api/if-match.js';
import { Dialog } from '../ui/dialog.js';
import { Field } from '../ui/field.js';
import { Refusal } from '../ui/refusal.js';
import { SayDialog } from '../ui/say-dialog.js';
import { Trouble } from '../ui/trouble.js';
import { useCall } from '../ui/use-call.js';
import { useEntries } from '../ui/use-entries.js';
import { orderWords as said } from '../words/orders.js';
import { words } from '../words.js';

type Order = Schemas['OrderView'];

/** What can be done to an order as it stands. */
export function OrderActs({ order }: { order: Order }) {
  const { call, isBusy, problem } = useCall();
  const [asks, setAsks] = useState<'promise' | 'close' | 'cancel' | null>(null);
  const { state } = order;
  if (state === 'closed' || state === 'cancelled') return null;
  const at = { params: { path: { id: order.id } }, headers: ifMatch(order) };
  const why = { label: said.why, need: said.needWhy };
  const done = () => setAsks(null);
  return (
    <>
      <div className="row no-print">
        {state === 'draft' && (
          <button type="button" className="main-button" disabled={isBusy} onClick={() => void call(() => api.POST('/api/orders/{id}/approve', at))}>
            {said.acts.approve}
          </button>
        )}
        {state === 'approved' && (
          <>
            <button type="button" className="main-button" disabled={isBusy} onClick={() => void call(() => api.POST('/api/orders/{id}/send', at))}>
              {said.acts.send}
            </button>
            <button type="button" disabled={isBusy} onClick={() => void call(() => api.POST('/api/orders/{id}/take-back', at))}>
              {said.acts.takeBack}
            </button>
          </>
        )}
        {state === 'sent' && (
          <>
            <button type="button" onClick={() => setAsks('promise')}>
              {said.acts.promise}
            </button>
            <button type="button" onClick={() => setAsks('close')}>
              {said.acts.close}
            </button>
          </>
        )}
        <button type="button" onClick={() => setAsks('cancel')}>
          {said.acts.cancel}
        </button>
      </div>
      <Refusal problem={problem} />
      {asks === 'promise' && (
        <Dialog title={said.promiseTitle} onClose={done}>
          {(close) => <PromiseForm order={order} close={close} />}
        </Dialog>
      )}
      {asks === 'close' && (
        <SayDialog
          title={said.closeTitle}
          button={said.acts.close}
          say={why}
          send={(reason) => api.POST('/api/orders/{id}/close', { ...at, body: { reason } })}
          onClose={done}
        />
      )}
      {asks === 'cancel' && (
        <SayDialog
          title={said.cancelTitle}
          button={said.acts.cancel}
          say={why}
          send={(reason) => api.POST('/api/orders/{id}/cancel', { ...at, body: { reason } })}
          onClose={done}
        />
      )}
    </>
  );
}

function PromiseForm({ order, close }: { order: Order; close: () => void }) {
  const client = useQueryClient();
  const form = useEntries({
    start: { promisedOn: order.promisedOn ?? '' },
    check: ({ promisedOn }) => (promisedOn === '' ? { promisedOn: said.needDay } : {}),
    send: (body) => api.POST('/api/orders/{id}/promise', { params: { path: { id: order.id } }, headers: ifMatch(order), body }),
    onDone: () => {
      close();
      void client.invalidateQueries();
    },
  });
  return (
    <form noValidate onSubmit={form.submit}>
      <Trouble troubles={form.troubles} attempt={form.attempt} />
      <Field {...form.field('promisedOn')} label={said.promiseDay}>
        {(props) => <input {...props} {...form.control('promisedOn')} type="date" />}
      </Field>
      <div className="row">
        <button type="submit" className="main-button" disabled={form.isSending}>
          {said.acts.promise}
        </button>
        <button type="button" onClick={close}>
          {words.cancel}
        </button>
      </div>
    </form>
  );
}
