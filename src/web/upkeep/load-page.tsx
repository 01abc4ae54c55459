import '../styles/load.css';
import { query, type Schemas } from '../api/client.js';
import { day, number } from '../format.js';
import { PageHead } from '../ui/page-head.js';
import { type Column, Sheet } from '../ui/sheet.js';
import { Empty, Loaded } from '../ui/states.js';
import { upkeepWords as said } from '../words/upkeep.js';

type Week = Schemas['WeekOfWorkView'];

const COLUMNS: readonly Column<Week>[] = [
  { name: said.week, cell: ({ week }) => day(week) },
  { name: said.hours, numeric: true, cell: ({ hours }) => number(hours, 1) },
  { name: said.tasks, numeric: true, cell: ({ tasks }) => number(tasks) },
  { name: said.kinds, wide: true, cell: ({ kinds }) => kinds.map(({ kind, hours }) => `${kind} ${number(hours, 1)} h`).join(', ') },
];

/** Hours of work that rules and outlooks ask for in each of the coming weeks. */
export default function LoadPage() {
  const load = query.useQuery('get', '/api/upkeep/load', { params: { query: {} } });
  return (
    <>
      <PageHead title={said.load} />
      <section className="block">
        <Loaded of={load} what={said.whatLoad}>
          {({ weeks, hours, tasks, note }) => {
            const most = weeks.reduce<Week | undefined>((top, week) => (top === undefined || week.hours > top.hours ? week : top), undefined);
            if (most === undefined || hours === 0) return <Empty title={said.nothing}>{said.nothingWhy}</Empty>;
            return (
              <>
                <p>
                  {said.most(day(most.week), number(most.hours, 1))} {said.inAll(number(hours), number(tasks))}
                </p>
                <Bars weeks={weeks} most={most.hours} />
                <p className="hint">{note}</p>
                <details className="more">
                  <summary>{said.asNumbers}</summary>
                  <Sheet caption={said.load} columns={COLUMNS} rows={weeks} keyOf={({ week }) => week} scrolls />
                </details>
              </>
            );
          }}
        </Loaded>
      </section>
    </>
  );
}

const WIDTH = 1040;
const HEIGHT = 220;
const FOOT = 24;
const STEP = WIDTH / 52;

/** One bar a week, from nought up; the months are named under them. */
function Bars({ weeks, most }: { weeks: readonly Week[]; most: number }) {
  const top = HEIGHT - FOOT - 16;
  return (
    <svg className="load-bars" viewBox={`0 0 ${WIDTH} ${HEIGHT}`} role="img" aria-label={said.chart}>
      <text x="0" y="12">{`${number(most, 0)} h`}</text>
      {weeks.map(({ week, hours }, at) => {
        const height = (hours / most) * top;
        return <rect key={week} className="load-bar" x={at * STEP + 2} y={HEIGHT - FOOT - height} width={STEP - 4} height={height} />;
      })}
      <line className="load-foot" x1="0" x2={WIDTH} y1={HEIGHT - FOOT} y2={HEIGHT - FOOT} />
      {weeks.map(({ week }, at) =>
        at % 4 === 0 ? (
          <text key={week} x={at * STEP} y={HEIGHT - 6}>
            {day(week).slice(0, -5)}
          </text>
        ) : null,
      )}
    </svg>
  );
}
