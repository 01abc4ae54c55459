import { lazy, Suspense, useState } from 'react';
import { query, type Schemas } from '../api/client.js';
import { moment, number } from '../format.js';
import { useMay } from '../session/session.js';
import { FEW_ROWS, Pager, usePaging } from '../ui/paging.js';
import { type Column, Sheet } from '../ui/sheet.js';
import { Empty, Loaded, Loading } from '../ui/states.js';
import { words } from '../words.js';

const FitForm = lazy(async () => ({ default: (await import('./fit-form.js')).FitForm }));

type Position = Schemas['PositionView'];
type Fitting = Schemas['FittingView'];

/** Every position with the part that is there now, and on request what was there before. */
export function PartSection({ skidId, timeZone }: { skidId: string; timeZone: string }) {
  const paging = usePaging(skidId, FEW_ROWS);
  const positions = query.useQuery(
    'get',
    '/api/positions',
    { params: { query: { skidId, limit: paging.limit, ...(paging.cursor === undefined ? {} : { cursor: paging.cursor }) } } },
    { placeholderData: (before) => before },
  );
  const columns: readonly Column<Position>[] = [
    {
      name: words.parts.position,
      cell: (position) => (
        <>
          {position.name}
          <small>{position.kind}</small>
        </>
      ),
    },
    { name: words.parts.fitted, cell: ({ fitted }) => (fitted === null ? words.none : <PartName part={fitted} />) },
    { name: words.parts.since, short: true, cell: ({ fitted }) => moment(fitted?.fittedAt ?? null, timeZone) },
    { name: words.parts.history, wide: true, cell: (position) => <History position={position} timeZone={timeZone} /> },
  ];
  return (
    <section className="block">
      <h2>{words.parts.title}</h2>
      <Loaded of={positions} what={words.parts.what}>
        {(list) => (
          <>
            {list.items.length === 0 ? (
              <Empty title={words.parts.empty}>{words.parts.emptyWhy}</Empty>
            ) : (
              <Sheet caption={words.parts.title} columns={columns} rows={list.items} keyOf={(position) => position.id} />
            )}
            <Pager paging={paging} list={list} what={words.parts.what} />
          </>
        )}
      </Loaded>
    </section>
  );
}

interface NamedPart {
  readonly itemName: string;
  readonly itemCode: string;
  readonly serialNumber: string | null;
  readonly setCount: number;
  readonly lot: string | null;
}

function PartName({ part: { itemName, itemCode, serialNumber, setCount, lot } }: { part: NamedPart }) {
  const more = [
    itemCode,
    ...(serialNumber === null ? [] : [words.parts.serial(serialNumber)]),
    ...(lot === null ? [] : [words.parts.lot(lot)]),
    ...(setCount > 1 ? [words.parts.set(number(setCount))] : []),
  ];
  return (
    <>
      {itemName}
      <small>{more.join(' · ')}</small>
    </>
  );
}

function History({ position, timeZone }: { position: Position; timeZone: string }) {
  const may = useMay();
  const [isOpen, setOpen] = useState(false);
  return (
    <details className="more" onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>
        {words.parts.show} <span className="unseen">{position.name}</span>
      </summary>
      {isOpen && <Fittings position={position} timeZone={timeZone} />}
      {isOpen && may.loadLogs && (
        <Suspense fallback={<Loading what={words.form} />}>
          <FitForm position={position} timeZone={timeZone} />
        </Suspense>
      )}
    </details>
  );
}

function Fittings({ position, timeZone }: { position: Position; timeZone: string }) {
  const fittings = query.useQuery('get', '/api/positions/{id}/fittings', { params: { path: { id: position.id }, query: { limit: 50 } } });
  const columns: readonly Column<Fitting>[] = [
    { name: words.parts.part, cell: (fitting) => <PartName part={fitting} /> },
    { name: words.parts.from, short: true, cell: (fitting) => moment(fitting.fittedAt, timeZone) },
    { name: words.parts.until, short: true, cell: (fitting) => moment(fitting.removedAt, timeZone) },
    { name: words.parts.why, cell: (fitting) => fitting.removalReason ?? words.none },
    { name: words.parts.by, cell: (fitting) => [fitting.fittedBy, fitting.removedBy].filter(Boolean).join(', ') },
  ];
  return (
    <Loaded of={fittings} what={words.parts.history.toLowerCase()}>
      {({ items }) =>
        items.length === 0 ? (
          <p>{words.parts.noHistory}</p>
        ) : (
          <Sheet caption={words.parts.historyOf(position.name)} columns={columns} rows={items} keyOf={(fitting) => fitting.id} />
        )
      }
    </Loaded>
  );
}
