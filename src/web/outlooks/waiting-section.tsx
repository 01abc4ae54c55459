import { query, type Schemas } from '../api/client.js';
import { day, number } from '../format.js';
import { type Column, Sheet } from '../ui/sheet.js';
import { Empty, Loaded } from '../ui/states.js';
import { outlookWords as said } from '../words/outlooks.js';

type Waiting = Schemas['WaitingView'];
type Point = Schemas['WaitingPointView'];

/** Beyond half a year nobody shifts a visit. */
const SHOWN_POINTS = 14;

const columnsOf = ({ cheapestOn, currency }: Waiting): readonly Column<Point>[] => [
  {
    name: said.actOn,
    cell: ({ on }) => (
      <>
        {day(on)}
        {on === cheapestOn && <small>{said.cheapest}</small>}
      </>
    ),
  },
  { name: `${said.lifeThrownAway}, ${currency}`, numeric: true, cell: ({ lifeThrownAway }) => number(lifeThrownAway) },
  { name: `${said.risk}, ${currency}`, numeric: true, cell: ({ risk }) => number(risk) },
  { name: `${said.energy}, ${currency}`, numeric: true, cell: ({ energy }) => number(energy) },
  { name: `${said.production}, ${currency}`, numeric: true, cell: ({ production }) => number(production) },
  { name: `${said.extra}, ${currency}`, numeric: true, cell: ({ extra }) => number(extra) },
];

/** What waiting costs, for each part of a skid with a forecast, by the day on which somebody acts. */
export function WaitingSection({ skidId }: { skidId: string }) {
  const waiting = query.useQuery('get', '/api/skids/{skidId}/outlooks/waiting', { params: { path: { skidId } } });
  return (
    <section className="block" aria-labelledby="waiting-head">
      <h2 id="waiting-head">{said.waiting}</h2>
      <Loaded of={waiting} what={said.whatWaiting}>
        {(list) =>
          list.length === 0 ? (
            <Empty title={said.noWaiting}>{said.noWaitingWhy}</Empty>
          ) : (
            <>
              <p className="hint">{said.waitingHow}</p>
              {list.filter(isTold).map((part) => (
                <WaitingOfPart key={`${part.subject} ${part.limitKind}`} part={part} />
              ))}
              <Untold parts={list.filter((part) => !isTold(part))} />
            </>
          )
        }
      </Loaded>
    </section>
  );
}

const isTold = ({ points }: Waiting) => points.length > 0;

/** Parts of which nothing can be said, by why. */
function Untold({ parts }: { parts: readonly Waiting[] }) {
  return [...new Set(parts.map(({ inWords }) => inWords))].map((why) => (
    <p key={why}>
      {why}{' '}
      {parts
        .filter(({ inWords }) => inWords === why)
        .map(({ subject }) => subject)
        .join(', ')}
      .
    </p>
  ));
}

function WaitingOfPart({ part }: { part: Waiting }) {
  return (
    <>
      <h3>{part.subject}</h3>
      <p>{part.inWords}</p>
      <Sheet caption={`${said.waiting}, ${part.subject}`} columns={columnsOf(part)} rows={part.points.slice(0, SHOWN_POINTS)} keyOf={({ on }) => on} scrolls />
    </>
  );
}
