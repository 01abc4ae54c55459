import { Link } from 'wouter';
import { day, minutes } from '../format.js';
import { type Column, GroupedSheet } from '../ui/sheet.js';
import { visitWords } from '../words/visits.js';
import { ClientSaid } from './client-said.js';
import type { Visit } from './use-visits.js';
import { VisitStateWord } from './visit-state.js';
import { daysOfWeek, endOfVisit } from './week.js';
import { weekday } from './weekday.js';

const COLUMNS: readonly Column<Visit>[] = [
  { name: visitWords.time, short: true, cell: (visit) => visitWords.from(visit.startTime, endOfVisit(visit)) },
  {
    name: visitWords.visit,
    cell: (visit) => (
      <>
        <Link href={`/visits/${visit.id}`}>
          {visit.siteName}
          <span className="unseen">, {visitWords.name(visit.no)}</span>
        </Link>
        <small>{visit.clientName}</small>
      </>
    ),
  },
  { name: visitWords.technicians, cell: (visit) => visit.people.map(({ name }) => name).join(', ') },
  {
    name: visitWords.jobs,
    wide: true,
    cell: ({ jobs }) =>
      jobs.length === 0
        ? visitWords.noJobs
        : jobs.map((job) => (
            <span key={job.id} className="line">
              <Link href={`/jobs/${job.id}`}>{job.title}</Link> {job.skidName}
            </span>
          )),
  },
  {
    name: visitWords.state,
    cell: (visit) => (
      <>
        <VisitStateWord visit={visit} />
        {visit.state === 'planned' && <ClientSaid visitId={visit.id} />}
      </>
    ),
  },
];

/** A week of visits, day by day; days without any are there as well. */
export function WeekTable({ monday, today, visits }: { monday: string; today: string; visits: readonly Visit[] }) {
  const days = daysOfWeek(monday);
  const groups = days.map((date) => {
    const rows = visits.filter(({ onDay }) => onDay === date);
    return { key: date, head: <DayHead date={date} isToday={date === today} visits={rows} />, rows };
  });
  const caption = visitWords.weekCaption(day(monday), day(days.at(-1) ?? monday));
  return <GroupedSheet caption={caption} columns={COLUMNS} groups={groups} keyOf={(visit) => visit.id} />;
}

function DayHead({ date, isToday, visits }: { date: string; isToday: boolean; visits: readonly Visit[] }) {
  const going = visits.filter(({ state }) => state !== 'called off');
  const total = going.reduce((sum, visit) => sum + visit.minutes, 0);
  return (
    <>
      {weekday(date)}
      {isToday && `, ${visitWords.today}`}
      <span className="of-day">{going.length === 0 ? visitWords.dayEmpty : visitWords.dayOf(going.length, minutes(total))}</span>
    </>
  );
}
