import { Link } from 'wouter';
import { day, minutes } from '../format.js';
import { type Column, GroupedSheet } from '../ui/sheet.js';
import { words } from '../words.js';
import type { Visit } from './use-visits.js';
import { VisitStateWord } from './visit-state.js';
import { daysOfWeek, timeAfter } from './week.js';
import { weekday } from './weekday.js';

const COLUMNS: readonly Column<Visit>[] = [
  { name: words.visits.time, short: true, cell: (visit) => words.visits.from(visit.startTime, timeAfter(visit.startTime, visit.minutes)) },
  {
    name: words.visits.visit,
    cell: (visit) => (
      <>
        <Link href={`/visits/${visit.id}`}>
          {visit.siteName}
          <span className="unseen">, {words.visits.name(visit.no)}</span>
        </Link>
        <small>{visit.clientName}</small>
      </>
    ),
  },
  { name: words.visits.technicians, cell: (visit) => visit.people.map(({ name }) => name).join(', ') },
  {
    name: words.visits.jobs,
    wide: true,
    cell: ({ jobs }) =>
      jobs.length === 0
        ? words.visits.noJobs
        : jobs.map((job) => (
            <span key={job.id} className="line">
              <Link href={`/jobs/${job.id}`}>{job.title}</Link> {job.skidName}
            </span>
          )),
  },
  { name: words.visits.state, cell: (visit) => <VisitStateWord visit={visit} /> },
];

/** A week of visits, day by day; days without any are there as well. */
export function WeekTable({ monday, today, visits }: { monday: string; today: string; visits: readonly Visit[] }) {
  const days = daysOfWeek(monday);
  const groups = days.map((date) => {
    const rows = visits.filter(({ onDay }) => onDay === date);
    return { key: date, head: <DayHead date={date} isToday={date === today} visits={rows} />, rows };
  });
  const caption = words.visits.weekCaption(day(monday), day(days.at(-1) ?? monday));
  return <GroupedSheet caption={caption} columns={COLUMNS} groups={groups} keyOf={(visit) => visit.id} />;
}

function DayHead({ date, isToday, visits }: { date: string; isToday: boolean; visits: readonly Visit[] }) {
  const going = visits.filter(({ state }) => state !== 'called off');
  const total = going.reduce((sum, visit) => sum + visit.minutes, 0);
  return (
    <>
      {weekday(date)}
      {isToday && `, ${words.visits.today}`}
      <span className="of-day">{going.length === 0 ? words.visits.dayEmpty : words.visits.dayOf(going.length, minutes(total))}</span>
    </>
  );
}
