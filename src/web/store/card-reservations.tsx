import { Link } from 'wouter';
import { api, query, type Schemas } from '../api/client.js';
import { day } from '../format.js';
import { useMay } from '../session/session.js';
import { Refusal } from '../ui/refusal.js';
import { type Column, Sheet } from '../ui/sheet.js';
import { Loaded } from '../ui/states.js';
import { useCall } from '../ui/use-call.js';
import { cardWords } from '../words/stock-card.js';
import { words } from '../words.js';
import { amount } from './amount.js';

type Reservation = Schemas['ReservationView'];
const said = cardWords.reservations;
const MOST = 200;

const COLUMNS: readonly Column<Reservation>[] = [
  { name: said.needed, short: true, cell: ({ neededOn }) => day(neededOn) },
  {
    name: said.for,
    cell: ({ jobId, visitId, note }) => (
      <>
        {jobId !== null ? (
          <Link href={`/jobs/${jobId}`}>{said.job}</Link>
        ) : visitId !== null ? (
          <Link href={`/visits/${visitId}`}>{said.visit}</Link>
        ) : (
          words.none
        )}
        {note !== '' && <small>{note}</small>}
      </>
    ),
  },
  { name: cardWords.stock.place, cell: ({ placeName }) => placeName },
  { name: said.quantity, numeric: true, cell: ({ quantity, unit }) => amount(quantity, unit) },
  { name: said.covered, numeric: true, cell: ({ covered, unit }) => amount(covered, unit) },
];

/** What is kept back for planned work, in the order in which it is needed. */
export function CardReservations({ itemId }: { itemId: string }) {
  const { keepStore } = useMay();
  const { call, isBusy, problem } = useCall();
  const found = query.useQuery('get', '/api/stock/reservations', { params: { query: { itemId, open: true, limit: MOST } } });
  const release: Column<Reservation> = {
    name: said.release,
    cell: ({ id, neededOn }) => (
      <button type="button" disabled={isBusy} onClick={() => void call(() => api.POST('/api/stock/reservations/{id}/release', { params: { path: { id } } }))}>
        {said.release}
        <span className="unseen"> {day(neededOn)}</span>
      </button>
    ),
  };
  return (
    <section className="block">
      <h2>{said.title}</h2>
      <Refusal problem={problem} />
      <Loaded of={found} what={said.what}>
        {({ items }) =>
          items.length === 0 ? (
            <p className="aside">{said.none}</p>
          ) : (
            <Sheet caption={said.caption} columns={keepStore ? [...COLUMNS, release] : COLUMNS} rows={items} keyOf={({ id }) => id} />
          )
        }
      </Loaded>
    </section>
  );
}
