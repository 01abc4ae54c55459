import { api, query, type Schemas } from '../api/client.js';
import { RecordForm } from '../registry/record-form.js';
import { useMay } from '../session/session.js';
import { Opened } from '../ui/opened.js';
import { Refusal } from '../ui/refusal.js';
import { Loaded } from '../ui/states.js';
import { useCall } from '../ui/use-call.js';
import { cardWords } from '../words/stock-card.js';
import { amount } from './amount.js';

const said = cardWords.codes;
const FIELDS = [
  { name: 'code', label: said.code, hint: said.codeHint, required: true },
  { name: 'quantity', label: said.quantity, empty: 'left out' },
] as const;

/** By which a scanner knows the item. */
export function CardCodes({ itemId }: { itemId: string }) {
  const { keepStore } = useMay();
  const { call, isBusy, problem } = useCall();
  const codes = query.useQuery('get', '/api/bar-codes', { params: { query: { itemId, limit: 200 } } });
  return (
    <section className="block">
      <h2>{said.title}</h2>
      <Refusal problem={problem} />
      <Loaded of={codes} what={said.what}>
        {({ items }) =>
          items.length === 0 ? (
            <p className="aside">{said.none}</p>
          ) : (
            <ul className="post-done">
              {items.map(({ id, code, quantity, unit, note }) => (
                <li key={id}>
                  <span>
                    <code>{code}</code> <small>{[amount(quantity, unit), note].filter(Boolean).join(', ')}</small>
                  </span>
                  {keepStore && (
                    <button
                      type="button"
                      className="no-print"
                      disabled={isBusy}
                      onClick={() => void call(() => api.DELETE('/api/bar-codes/{id}', { params: { path: { id } } }))}
                    >
                      {said.remove}
                      <span className="unseen"> {code}</span>
                    </button>
                  )}
                </li>
              ))}
            </ul>
          )
        }
      </Loaded>
      {keepStore && (
        <Opened summary={said.add} what={said.what}>
          <RecordForm
            fields={FIELDS}
            button={said.add}
            send={(body: Omit<Schemas['BarCodeDto'], 'itemId'>) => api.POST('/api/bar-codes', { body: { ...body, itemId } })}
          />
        </Opened>
      )}
    </section>
  );
}
