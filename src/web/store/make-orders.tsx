import { useState } from 'react';
import { Link } from 'wouter';
import { api, type Schemas } from '../api/client.js';
import { number, written } from '../format.js';
import { Refusal } from '../ui/refusal.js';
import { useCall } from '../ui/use-call.js';
import { useRequestKey } from '../ui/use-request-key.js';
import { reorderWords as said } from '../words/reorder.js';

type Drafts = Schemas['DraftsView'];

/** Puts what was accepted into draft orders, one for each supplier and place. */
export function MakeOrders({ placeId }: { placeId: string | undefined }) {
  const { call, isBusy, problem } = useCall();
  const keyOf = useRequestKey();
  const [drafts, setDrafts] = useState<Drafts | null>(null);
  const [times, setTimes] = useState(0);
  const [takesAlong, setTakesAlong] = useState(true);
  const make = () => {
    const body = { ...(placeId === undefined ? {} : { placeId }), ...(takesAlong ? { takeAlong: true } : {}) };
    return call(
      () => api.POST('/api/reorder/orders', { params: { header: keyOf({ ...body, times }) }, body }),
      (made) => {
        setDrafts(made ?? null);
        setTimes((before) => before + 1);
      },
    );
  };
  return (
    <>
      <label className="tick no-print">
        <input type="checkbox" checked={takesAlong} onChange={({ target }) => setTakesAlong(target.checked)} />
        <span>{said.takeAlong}</span>
      </label>
      <p className="row no-print">
        <button type="button" className="main-button" disabled={isBusy} onClick={() => void make()}>
          {said.makeOrders}
        </button>
      </p>
      <Refusal problem={problem} />
      <div role="status">{drafts !== null && <Made drafts={drafts} />}</div>
    </>
  );
}

function Made({ drafts: { orders, short, leftOut } }: { drafts: Drafts }) {
  return (
    <div className="note-box">
      <p>{orders.length === 0 ? said.noneMade : said.made(number(orders.length))}</p>
      <ul className="plain">
        {orders.map(({ id, no, supplierName, currency }) => {
          const missing = short.find(({ orderId }) => orderId === id);
          return (
            <li key={id}>
              <Link href={`/orders/${id}`}>{said.order(no, supplierName)}</Link>
              {missing !== undefined && <small>{said.short(written(Number(missing.short)), currency)}</small>}
            </li>
          );
        })}
      </ul>
      {leftOut.length > 0 && (
        <>
          <p>{said.leftOut}</p>
          <ul className="plain">
            {leftOut.map(({ line, why }) => (
              <li key={line}>{why}</li>
            ))}
          </ul>
        </>
      )}
    </div>
  );
}
