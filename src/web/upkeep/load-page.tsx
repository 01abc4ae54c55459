import '../styles/load.css';
import { query, type Schemas } from '../api/client.js';
import { day, number } from '../format.js';
import { Choice } from '../ui/choice.js';
import { PageHead } from '../ui/page-head.js';
import { type Column, Sheet } from '../ui/sheet.js';
import { Empty, Loaded } from '../ui/states.js';
import { useChoices } from '../ui/use-choices.js';
import { upkeepWords as said } from '../words/upkeep.js';
import { words } from '../words.js';
import { ClientChoice, SkidChoice } from './scope-choices.js';
import { WeekOfLoad } from './week-of-load.js';

type Week = Schemas['WeekOfWorkView'];

/** Hours of work that rules and outlooks ask for in each of the coming weeks, of the fleet, a client or a skid, and what one week is made of. */
export default function LoadPage() {
  const choices = useChoices<'client' | 'skid' | 'week'>();
  const [clientId, skidId, chosen] = [choices.of('client'), choices.of('skid'), choices.of('week')];
  const scope = { ...(clientId && { clientId }), ...(skidId && { skidId }) };
  const load = query.useQuery('get', '/api/upkeep/load', { params: { query: scope } }, { placeholderData: (before) => before });
  return (
    <>
      <PageHead title={said.load} />
      <section className="block">
        <div className="tools no-print">
          <ClientChoice
            value={clientId}
            onChoose={(id) => {
              choices.choose('client', id);
              choices.choose('skid', '');
            }}
          />
          <SkidChoice clientId={clientId} value={skidId} onChoose={(id) => choices.choose('skid', id)} />
        </div>
        <Loaded of={load} what={said.whatLoad}>
          {(found) => <Year load={found} chosen={chosen} onChoose={(week) => choices.choose('week', week)} />}
        </Loaded>
      </section>
      {chosen !== undefined && <WeekOfLoad week={chosen} scope={scope} />}
    </>
  );
}

interface YearProps {
  readonly load: Schemas['LoadAheadView'];
  readonly chosen: string | undefined;
  readonly onChoose: (week: string) => void;
}

function Year({ load: { weeks, hours, tasks, note }, chosen, onChoose }: YearProps) {
  const most = weeks.reduce<Week | undefined>((top, week) => (top === undefined || week.hours > top.hours ? week : top), undefined);
  if (most === undefined || hours === 0) return <Empty title={said.nothing}>{said.nothingWhy}</Empty>;
  const columns: readonly Column<Week>[] = [
    {
      name: said.week,
      cell: ({ week }) => (
        <button type="button" onClick={() => onChoose(week)}>
          {day(week)}
        </button>
      ),
    },
    { name: said.hours, numeric: true, cell: (each) => number(each.hours, 1) },
    { name: said.tasks, numeric: true, cell: (each) => number(each.tasks) },
    { name: said.kinds, wide: true, cell: ({ kinds }) => kinds.map((each) => `${each.kind} ${number(each.hours, 1)} h`).join(', ') },
  ];
  return (
    <>
      <p role="status">
        {said.most(day(most.week), number(most.hours, 1))} {said.inAll(number(hours), number(tasks))}
      </p>
      <Bars weeks={weeks} most={most.hours} chosen={chosen} />
      <p className="hint">{note}</p>
      <div className="tools no-print">
        <Choice
          label={said.weekShown}
          value={chosen}
          all={words.choose}
          options={weeks.map((each) => ({ value: each.week, label: said.weekOption(day(each.week), number(each.hours, 1)) }))}
          onChoose={onChoose}
        />
      </div>
      <details className="more">
        <summary>{said.asNumbers}</summary>
        <Sheet caption={said.load} columns={columns} rows={weeks} keyOf={({ week }) => week} scrolls />
      </details>
    </>
  );
}

const WIDTH = 1040;
const HEIGHT = 220;
const FOOT = 24;
const STEP = WIDTH / 52;

/** One bar a week, from nought up; the months are named under them, and the week that is shown below stands out. */
function Bars({ weeks, most, chosen }: { weeks: readonly Week[]; most: number; chosen: string | undefined }) {
  const top = HEIGHT - FOOT - 16;
  return (
    <svg className="load-bars" viewBox={`0 0 ${WIDTH} ${HEIGHT}`} role="img" aria-label={said.chart}>
      <text x="0" y="12">{`${number(most, 0)} h`}</text>
      {weeks.map(({ week, hours }, at) => {
        const height = (hours / most) * top;
        const kind = week === chosen ? 'load-bar load-chosen' : 'load-bar';
        return <rect key={week} className={kind} x={at * STEP + 2} y={HEIGHT - FOOT - height} width={STEP - 4} height={height} />;
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
