import { query, type Schemas } from '../api/client.js';
import { Loaded } from '../ui/states.js';
import { orderWords } from '../words/orders.js';

const said = orderWords.letter;

/** What is written to the supplier: the order or, once it was sent, the question when it comes. */
export function OrderLetter({ order }: { order: Schemas['OrderView'] }) {
  const letter = query.useQuery('get', '/api/orders/{id}/letter', { params: { path: { id: order.id } } });
  return (
    <section className="block">
      <h2>{said.title}</h2>
      <Loaded of={letter} what={said.what}>
        {({ to, subject, text }) => (
          <>
            <p>
              {said.to}: {to ?? said.noAddress}
              <br />
              {said.subject}: {subject}
            </p>
            <p className="text letter">{text}</p>
            <p className="row no-print">
              {to !== null && (
                <a className="target" href={`mailto:${to}?subject=${encodeURIComponent(subject)}&body=${encodeURIComponent(text)}`}>
                  {said.open}
                </a>
              )}
              <button type="button" onClick={() => print()}>
                {said.print}
              </button>
            </p>
          </>
        )}
      </Loaded>
    </section>
  );
}
