import '../styles/plan.css';
import { Link } from 'wouter';
import { query } from '../api/client.js';
import { day } from '../format.js';
import { useMay } from '../session/session.js';
import { addDays, siteToday } from '../site-time.js';
import { Choice } from '../ui/choice.js';
import { PageHead } from '../ui/page-head.js';
import { Empty, Loaded } from '../ui/states.js';
import { useChoices } from '../ui/use-choices.js';
import { daySheetWords } from '../words/day-sheet.js';
import { visitWords } from '../words/visits.js';
import { workWords } from '../words/work.js';
import { optionsOf } from './options-of.js';
import { UnplannedJobs } from './unplanned-jobs.js';
import { useVisitsBetween, type Visit } from './use-visits.js';
import { weekAsked } from './week.js';
import { WeekTable } from './week-table.js';

/** The visits of a week, by day. */
export default function VisitsPage() {
  const choices = useChoices<'week' | 'person' | 'site'>();
  const today = siteToday(Date.now(), Intl.DateTimeFormat().resolvedOptions().timeZone);
  const monday = weekAsked(choices.of('week'), today);
  const visits = useVisitsBetween(monday, addDays(monday, 6));
  const [person, site] = [choices.of('person'), choices.of('site')];
  return (
    <>
      <PageHead title={visitWords.title} over={visitWords.week(day(monday), day(addDays(monday, 6)))} />
      <section className="block">
        <div className="block-head">
          <WeekSteps monday={monday} today={today} onWeek={(week) => choices.choose('week', week)} />
          <Link className="target no-print" href="/day-sheet">
            {daySheetWords.link}
          </Link>
          <Filters visits={visits.data ?? []} person={person} site={site} onChoose={choices.choose} />
        </div>
        <Loaded of={visits} what={visitWords.loadWeek}>
          {(all) => <Shown visits={all} person={person} site={site} monday={monday} today={today} />}
        </Loaded>
      </section>
      <UnplannedJobs siteId={site} />
    </>
  );
}

function WeekSteps({ monday, today, onWeek }: { monday: string; today: string; onWeek: (monday: string) => void }) {
  return (
    <div className="row no-print">
      <button type="button" onClick={() => onWeek(addDays(monday, -7))}>
        {visitWords.weekBefore}
      </button>
      <button type="button" onClick={() => onWeek('')} disabled={weekAsked(undefined, today) === monday}>
        {visitWords.thisWeek}
      </button>
      <button type="button" onClick={() => onWeek(addDays(monday, 7))}>
        {visitWords.nextWeek}
      </button>
    </div>
  );
}

interface FiltersProps {
  readonly visits: readonly Visit[];
  readonly person: string | undefined;
  readonly site: string | undefined;
  readonly onChoose: (name: 'person' | 'site', value: string) => void;
}

/** Whoever goes somewhere this week or could, and wherever somebody goes. */
function Filters({ visits, person, site, onChoose }: FiltersProps) {
  const staff = query.useQuery('get', '/api/staff');
  const known = (staff.data ?? []).filter(({ role }) => role === 'technician').map(({ id, name }) => ({ id, name }));
  const going = visits.flatMap(({ people }) => people.map((each) => ({ id: each.personId, name: each.name })));
  const sites = visits.map(({ siteId, siteName, clientName }) => ({ id: siteId, name: `${siteName}, ${clientName}` }));
  return (
    <div className="tools no-print">
      <Choice
        label={visitWords.technician}
        value={person}
        options={optionsOf([...known, ...going], person)}
        all={visitWords.everybody}
        onChoose={(value) => onChoose('person', value)}
      />
      <Choice label={visitWords.site} value={site} options={optionsOf(sites, site)} all={visitWords.everySite} onChoose={(value) => onChoose('site', value)} />
    </div>
  );
}

interface ShownProps extends Omit<FiltersProps, 'onChoose'> {
  readonly monday: string;
  readonly today: string;
}

function Shown({ visits, person, site, monday, today }: ShownProps) {
  const may = useMay();
  const shown = visits.filter(
    ({ people, siteId }) => (person === undefined || people.some(({ personId }) => personId === person)) && (site === undefined || siteId === site),
  );
  return (
    <>
      <p role="status" className="count">
        {visitWords.count(shown.length)}
      </p>
      {shown.length > 0 ? (
        <WeekTable monday={monday} today={today} visits={shown} />
      ) : visits.length > 0 ? (
        <Empty title={visitWords.noneMatch}>{visitWords.noneMatchWhy}</Empty>
      ) : (
        <Empty title={visitWords.noneThisWeek}>{may.manage ? <Link href="/dues">{visitWords.noneThisWeekWhy}</Link> : workWords.noneWhy}</Empty>
      )}
    </>
  );
}
