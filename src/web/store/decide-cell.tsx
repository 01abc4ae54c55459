import { useQueryClient } from '@tanstack/react-query';
import { useState } from 'react';
import { Link } from 'wouter';
import { api, query, type Schemas } from '../api/client.js';
import { day, written } from '../format.js';
import { Dialog } from '../ui/dialog.js';
import { Field } from '../ui/field.js';
import { Refusal } from '../ui/refusal.js';
import { Trouble } from '../ui/trouble.js';
import { useCall } from '../ui/use-call.js';
import { useEntries } from '../ui/use-entries.js';
import { reorderWords as said } from '../words/reorder.js';
import { storeWords } from '../words/store.js';
import { words } from '../words.js';
import { amount } from './amount.js';

type Line = Schemas['ReorderLineView'];
const MOST = 200;

/** What was decided on a line, or the ways to decide. */
export function DecideCell({ line }: { line: Line }) {
  const { call, isBusy, problem } = useCall();
  const [asks, setAsks] = useState<'change' | 'dismiss' | null>(null);
  const path = { params: { path: { id: line.id } } };
  const of = <span className="unseen"> {said.of(line.itemName, line.placeName)}</span>;
  if (line.decision !== null) {
    return (
      <>
        <Decided decision={line.decision} unit={line.unit} />
        <button type="button" className="no-print" disabled={isBusy} onClick={() => void call(() => api.POST('/api/reorder/lines/{id}/reopen', path))}>
          {said.reopen}
          {of}
        </button>
        <Refusal problem={problem} />
      </>
    );
  }
  return (
    <>
      <div className="decide no-print">
        {line.action !== 'nothing' && (
          <button type="button" disabled={isBusy} onClick={() => void call(() => api.POST('/api/reorder/lines/{id}/accept', { ...path, body: {} }))}>
            {said.accept}
            {of}
          </button>
        )}
        <button type="button" onClick={() => setAsks('change')}>
          {said.change}
          {of}
        </button>
        {line.action !== 'nothing' && (
          <button type="button" onClick={() => setAsks('dismiss')}>
            {said.dismiss}
            {of}
          </button>
        )}
      </div>
      <Refusal problem={problem} />
      {asks !== null && (
        <Dialog title={asks === 'change' ? said.changeTitle(line.itemName) : said.dismissTitle(line.itemName)} onClose={() => setAsks(null)}>
          {(close) => <DecideForm line={line} asks={asks} close={close} />}
        </Dialog>
      )}
    </>
  );
}

function Decided({ decision, unit }: { decision: Schemas['DecisionView']; unit: string }) {
  const on = day(decision.at.slice(0, 10));
  return (
    <>
      <span className="line">
        {decision.state === 'dismissed'
          ? said.dismissedBy(decision.by, on, decision.until === null ? null : day(decision.until))
          : said.by(said.decided[decision.state], amount(decision.quantity, unit), decision.by, on)}
      </span>
      {decision.reason !== '' && <small>{decision.reason}</small>}
      {decision.orderId !== null && <Link href={`/orders/${decision.orderId}`}>{storeWords.order}</Link>}
    </>
  );
}

function DecideForm({ line, asks, close }: { line: Line; asks: 'change' | 'dismiss'; close: () => void }) {
  const client = useQueryClient();
  const isChange = asks === 'change';
  const offers = query.useQuery('get', '/api/offers', { params: { query: { itemId: line.itemId, limit: MOST } } }, { enabled: isChange });
  const usual = line.purchase?.supplierId;
  const form = useEntries<'quantity' | 'supplierId' | 'reason' | 'until', Line>({
    start: { quantity: Number(line.quantity) > 0 ? line.quantity : '', supplierId: '', reason: '', until: '' },
    check: ({ quantity, reason }) => ({
      ...(isChange && !(Number(quantity.replace(',', '.')) > 0) ? { quantity: said.needQuantity } : {}),
      ...(reason.trim() === '' ? { reason: said.needReason } : {}),
    }),
    send: ({ quantity, supplierId, reason, until }) => {
      const path = { params: { path: { id: line.id } } };
      return isChange
        ? api.POST('/api/reorder/lines/{id}/change', {
            ...path,
            body: { quantity: quantity.trim().replace(',', '.'), supplierId: supplierId === '' ? null : supplierId, reason: reason.trim() },
          })
        : api.POST('/api/reorder/lines/{id}/dismiss', { ...path, body: { reason: reason.trim(), until: until === '' ? null : until } });
    },
    onDone: () => {
      close();
      void client.invalidateQueries();
    },
  });
  return (
    <form noValidate onSubmit={form.submit}>
      <Trouble troubles={form.troubles} attempt={form.attempt} />
      {isChange && (
        <Field {...form.field('quantity')} label={said.quantity(storeWords.unitName(line.unit))} hint={said.quantityHint(written(Number(line.quantity)))}>
          {(props) => <input {...props} {...form.control('quantity')} className="short" inputMode="decimal" autoComplete="off" />}
        </Field>
      )}
      {isChange && (
        <Field {...form.field('supplierId')} label={said.supplier}>
          {(props) => (
            <select {...props} {...form.control('supplierId')}>
              <option value="">{line.purchase === null ? said.usualSupplier : said.asProposed(line.purchase.supplierName)}</option>
              {(offers.data?.items ?? [])
                .filter(({ supplierId }) => supplierId !== usual)
                .map(({ id, supplierId, supplierName, price, currency }) => (
                  <option key={id} value={supplierId}>
                    {price === null ? supplierName : said.at(supplierName, written(Number(price)), currency)}
                  </option>
                ))}
            </select>
          )}
        </Field>
      )}
      <Field {...form.field('reason')} label={said.reasonLabel}>
        {(props) => <textarea {...props} {...form.control('reason')} rows={2} />}
      </Field>
      {!isChange && (
        <Field {...form.field('until')} label={said.until} hint={said.untilHint}>
          {(props) => <input {...props} {...form.control('until')} type="date" />}
        </Field>
      )}
      <div className="row">
        <button type="submit" className="main-button" disabled={form.isSending}>
          {isChange ? said.change : said.dismiss}
        </button>
        <button type="button" onClick={close}>
          {words.cancel}
        </button>
      </div>
    </form>
  );
}
