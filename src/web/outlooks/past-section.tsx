import '../styles/past.css';
import { query, type Schemas } from '../api/client.js';
import { day, number } from '../format.js';
import { type Column, Sheet } from '../ui/sheet.js';
import { ShowMore } from '../ui/show-more.js';
import { Loaded } from '../ui/states.js';
import { outlookWords as said } from '../words/outlooks.js';

type Past = Schemas['PastForecastView'];
type LimitKind = keyof typeof said.limits;

const COLUMNS: readonly Column<Past>[] = [
  { name: said.saidOn, cell: ({ originOn, subject }) => `${day(originOn)}, ${subject}` },
  { name: said.likely, numeric: true, cell: ({ p50On }) => (p50On === null ? said.beyond : day(p50On)) },
  {
    name: said.range,
    numeric: true,
    cell: ({ p10On, p90On }) => said.rangeOf(p10On === null ? said.beyond : day(p10On), p90On === null ? said.beyond : day(p90On)),
  },
  { name: said.cameOn, cell: cameOf },
];

function cameOf({ came, cameOn, inside, afterwards }: Past): string {
  const what =
    came === 'open' || cameOn === null ? said.nothingYet : came === 'early change' ? said.changedEarly(day(cameOn)) : said.metOn(day(cameOn), inside === true);
  return afterwards ? `${what}; ${said.madeAfterwards}` : what;
}

/** What was forecast for a skid week by week, drawn beside what came. */
export function PastSection({ skidId, limitKind }: { skidId: string; limitKind: LimitKind }) {
  const past = query.useQuery('get', '/api/skids/{skidId}/outlooks', { params: { path: { skidId }, query: { limitKind } } });
  return (
    <Loaded of={past} what={said.whatRecord}>
      {(list) =>
        list.length === 0 ? null : (
          <section className="block">
            <h2>{said.past(said.limits[limitKind])}</h2>
            <p className="hint">{said.pastHow}</p>
            <PastFigure list={list} />
            <ShowMore rows={list.toReversed()}>
              {(rows) => (
                <Sheet caption={said.past(said.limits[limitKind])} columns={COLUMNS} rows={rows} keyOf={({ originOn, subject }) => `${originOn} ${subject}`} />
              )}
            </ShowMore>
          </section>
        )
      }
    </Loaded>
  );
}

const WIDTH = 1040;
const HEIGHT = 300;
const FOOT = 24;
const LEFT = 74;
const MOST_AHEAD_DAYS = 270;
const DAY_MS = 86_400_000;
const dayNo = (text: string) => Date.parse(`${text}T00:00:00Z`) / DAY_MS;

/** Across: the day on which it was said. Up: how many days ahead. A bar from P10 to P90 with a tick at P50, and a ring where the limit came. */
function PastFigure({ list }: { list: readonly Past[] }) {
  const origins = list.map(({ originOn }) => dayNo(originOn));
  const [first, last] = [Math.min(...origins), Math.max(...origins)];
  const ahead = (on: string | null, origin: number) => Math.min(MOST_AHEAD_DAYS, on === null ? MOST_AHEAD_DAYS : dayNo(on) - origin);
  const most = Math.max(
    14,
    ...list.flatMap(({ originOn, p90On, cameOn }) => [ahead(p90On, dayNo(originOn)), cameOn === null ? 0 : ahead(cameOn, dayNo(originOn))]),
  );
  const x = (origin: number) => LEFT + (last === first ? 0 : ((origin - first) / (last - first)) * (WIDTH - LEFT - 8));
  const y = (days: number) => HEIGHT - FOOT - (days / most) * (HEIGHT - FOOT - 14);
  const ticks = [0, Math.round(most / 2), most];
  return (
    <svg className="past-figure" viewBox={`0 0 ${WIDTH} ${HEIGHT}`} role="img" aria-label={said.pastChart}>
      {ticks.map((days) => (
        <g key={days}>
          <line className="past-grid" x1={LEFT} x2={WIDTH} y1={y(days)} y2={y(days)} />
          <text x={LEFT - 8} y={y(days) + 4} textAnchor="end">
            {said.days(number(days))}
          </text>
        </g>
      ))}
      {list.map(({ originOn, subject, p10On, p50On, p90On, came, cameOn }) => {
        const origin = dayNo(originOn);
        return (
          <g key={`${originOn} ${subject}`}>
            <line className="past-range" x1={x(origin)} x2={x(origin)} y1={y(ahead(p10On, origin))} y2={y(ahead(p90On, origin))} />
            <line className="past-middle" x1={x(origin) - 3} x2={x(origin) + 3} y1={y(ahead(p50On, origin))} y2={y(ahead(p50On, origin))} />
            {came === 'scored' && cameOn !== null && <circle className="past-came" cx={x(origin)} cy={y(ahead(cameOn, origin))} r="3" />}
          </g>
        );
      })}
      <text x={LEFT} y={HEIGHT - 6}>
        {day(new Date(first * DAY_MS).toISOString().slice(0, 10))}
      </text>
      <text x={WIDTH} y={HEIGHT - 6} textAnchor="end">
        {day(new Date(last * DAY_MS).toISOString().slice(0, 10))}
      </text>
    </svg>
  );
}
