import '../styles/planning.css';
import '../styles/plan.css';
import { query, type Schemas } from '../api/client.js';
import { minutes } from '../format.js';
import { useSession } from '../session/session.js';
import { addDays, siteToday } from '../site-time.js';
import { Choice } from '../ui/choice.js';
import { PageHead } from '../ui/page-head.js';
import { Empty, Loaded } from '../ui/states.js';
import { useChoices } from '../ui/use-choices.js';
import { KitList } from '../visits/kit-list.js';
import { useVisitsBetween, type Visit } from '../visits/use-visits.js';
import { endOfVisit } from '../visits/week.js';
import { weekday } from '../visits/weekday.js';
import { daySheetWords } from '../words/day-sheet.js';
import { visitWords } from '../words/visits.js';

const ZONE = Intl.DateTimeFormat().resolvedOptions().timeZone;

/** What one technician does on one day, on paper: the stops in their order, how to get in, and what to take along. */
export default function DaySheetPage() {
  const session = useSession();
  const choices = useChoices<'day' | 'person'>();
  const staff = query.useQuery('get', '/api/staff');
  const asked = choices.of('day');
  const day = asked !== undefined && /^\d{4}-\d\d-\d\d$/.test(asked) ? asked : addDays(siteToday(Date.now(), ZONE), 1);
  const personId = choices.of('person') ?? session.id;
  const visits = useVisitsBetween(day, day);
  const goers = (staff.data ?? []).filter(({ role }) => role === 'technician' || role === 'manager');
  const name = goers.find(({ id }) => id === personId)?.name ?? session.name;
  return (
    <>
      <PageHead title={daySheetWords.title(name)} over={weekday(day)} />
      <div className="tools no-print">
        <span className="pick">
          <label htmlFor="sheet-day">{visitWords.day}</label>
          <input id="sheet-day" type="date" value={day} onChange={({ target }) => choices.choose('day', target.value)} />
        </span>
        <Choice
          label={visitWords.technician}
          value={choices.of('person')}
          options={goers.filter(({ id }) => id !== session.id).map(({ id: value, name: label }) => ({ value, label }))}
          all={daySheetWords.own}
          onChoose={(value) => choices.choose('person', value)}
        />
        <button type="button" className="main-button" onClick={() => print()}>
          {visitWords.kit.print}
        </button>
      </div>
      <Loaded of={visits} what={daySheetWords.what}>
        {(all) => {
          const own = all.filter(({ people, state }) => state !== 'called off' && people.some((person) => person.personId === personId));
          return own.length === 0 ? <Empty title={daySheetWords.none}>{daySheetWords.noneWhy}</Empty> : <Stops visits={own} />;
        }}
      </Loaded>
    </>
  );
}

function Stops({ visits }: { visits: readonly Visit[] }) {
  const inOrder = visits.toSorted((one, other) => one.startTime.localeCompare(other.startTime));
  return (
    <>
      <section className="block">
        <h2>{daySheetWords.route}</h2>
        <ol className="plain">
          {inOrder.map((visit) => (
            <li key={visit.id}>{daySheetWords.stop(visit.startTime, endOfVisit(visit), visit.siteName)}</li>
          ))}
        </ol>
      </section>
      {inOrder.map(({ id, siteName }, at) => (
        <Stop key={id} visitId={id} title={daySheetWords.numbered(at + 1, siteName)} />
      ))}
    </>
  );
}

function Stop({ visitId, title }: { visitId: string; title: string }) {
  const params = { params: { path: { id: visitId } } };
  const visit = query.useQuery('get', '/api/visits/{id}', params);
  const kit = query.useQuery('get', '/api/visits/{id}/kit', params);
  const wayIn = query.useQuery('get', '/api/visits/{id}/way-in', params);
  return (
    <section className="block day-stop">
      <h2>{title}</h2>
      <Loaded of={visit} what={visitWords.one}>
        {(found) => (
          <>
            <dl className="facts">
              {factsOf(found).map(({ name, value }) => (
                <div key={name}>
                  <dt>{name}</dt>
                  <dd>{value}</dd>
                </div>
              ))}
            </dl>
            <ul className="to-tick">
              {found.jobs.map((job) => (
                <li key={job.id}>{daySheetWords.job(job.title, job.skidName)}</li>
              ))}
            </ul>
            {found.note !== null && found.note !== '' && <p className="note-box">{found.note}</p>}
          </>
        )}
      </Loaded>
      <Loaded of={wayIn} what={daySheetWords.whatWayIn}>
        {(found) => <WayIn of={found} />}
      </Loaded>
      <Loaded of={kit} what={visitWords.kit.what}>
        {(list) => <KitList kit={list} onPaper />}
      </Loaded>
    </section>
  );
}

/** How to get in, and whom to call there. */
function WayIn({ of: { access, contacts } }: { of: Schemas['WayInView'] }) {
  return (
    <>
      {access.length > 0 && (
        <>
          <h3>{daySheetWords.access}</h3>
          <p>{access.join(' ')}</p>
        </>
      )}
      {contacts.length > 0 && (
        <>
          <h3>{daySheetWords.contacts}</h3>
          <ul className="plain">
            {contacts.map(({ name, role, phone, email }) => (
              <li key={`${name} ${role}`}>
                {[name, role].filter(Boolean).join(', ')}
                {phone !== '' && (
                  <>
                    {' '}
                    <a href={`tel:${phone.replace(/[^+\d]/g, '')}`}>{phone}</a>
                  </>
                )}
                {email !== null && (
                  <>
                    {' '}
                    <a href={`mailto:${email}`}>{email}</a>
                  </>
                )}
              </li>
            ))}
          </ul>
        </>
      )}
    </>
  );
}

const factsOf = (visit: Schemas['VisitDetailView']) => [
  { name: visitWords.facts.time, value: visitWords.from(visit.startTime, endOfVisit(visit)) },
  { name: visitWords.facts.takes, value: visitWords.takes(minutes(visit.minutes), visit.breakMinutes === 0 ? null : minutes(visit.breakMinutes)) },
  { name: daySheetWords.client, value: visit.clientName },
  { name: visitWords.facts.who, value: visit.people.map(({ name }) => name).join(', ') },
  ...(visit.accessHours === '' ? [] : [{ name: visitWords.facts.access, value: visit.accessHours }]),
];
