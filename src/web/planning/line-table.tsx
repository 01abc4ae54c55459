import { Link } from 'wouter';
import { type Column, GroupedSheet } from '../ui/sheet.js';
import { ClientSaid } from '../visits/client-said.js';
import { weekday } from '../visits/weekday.js';
import { planWords } from '../words/plan.js';
import { minutesOf } from './drawing/tour-geometry.js';
import { limitInWords, limitsByLine } from './limits-by-line.js';
import { type Line, namesOf } from './lines.js';
import type { ShownPlan } from './shown-plan.js';

interface TableProps {
  readonly plan: ShownPlan;
  /** Narrowed to the lines of one person; empty: everybody */
  readonly personId: string;
  readonly onOpen: (lineId: string) => void;
  /** Of a line that can be taken over */
  readonly tickOf: (line: Line) => { readonly id: string; readonly isTicked: boolean; readonly toggle: () => void } | undefined;
}

/** The visits of a plan in words: the same lines as in the drawing. */
export function LineTable({ plan, personId, onOpen, tickOf }: TableProps) {
  const limits = limitsByLine(plan);
  const columns: readonly Column<Line>[] = [
    {
      name: planWords.no,
      short: true,
      cell: (line) => {
        const tick = tickOf(line);
        if (tick === undefined) return line.no;
        return (
          <label className="tick">
            <input id={tick.id} type="checkbox" checked={tick.isTicked} onChange={tick.toggle} />
            <span>
              {line.no}
              <span className="unseen"> {planWords.takeOver(line.siteName)}</span>
            </span>
          </label>
        );
      },
    },
    { name: planWords.time, short: true, cell: ({ startAt, endAt }) => `${startAt}–${endAt}` },
    {
      name: planWords.site,
      cell: ({ id, siteName }) => (
        <button type="button" className="plain-button" onClick={() => onOpen(id)}>
          {siteName}
        </button>
      ),
    },
    { name: planWords.who, cell: ({ people }) => namesOf(people) },
    {
      name: planWords.work,
      wide: true,
      cell: ({ work }) =>
        work.map(({ id, text }) => (
          <span key={id} className="line">
            {text}
          </span>
        )),
    },
    {
      name: planWords.change,
      cell: (line) => (
        <>
          <Change line={line} />
          {line.visitId !== null && <ClientSaid visitId={line.visitId} />}
        </>
      ),
    },
    {
      name: planWords.why,
      wide: true,
      cell: ({ id, reason, endAt, promised }) => (
        <>
          {reason}
          {!promised && <small>{planWords.latest(limitInWords(limits.get(id) ?? null, minutesOf(endAt)))}</small>}
        </>
      ),
    },
  ];
  const shown = plan.lines.filter(({ people }) => personId === '' || people.some((person) => person.personId === personId));
  const days = [...new Set(shown.map(({ day }) => day))];
  return (
    <GroupedSheet
      caption={planWords.lines}
      columns={columns}
      groups={days.map((day) => ({ key: day, head: weekday(day), rows: shown.filter((line) => line.day === day) }))}
      keyOf={({ id }) => id}
    />
  );
}

/** What taking the line over would do, or what became of it. */
function Change({ line: { change, visitId, visitNo, was, promised, people, accepted } }: { line: Line }) {
  if (accepted !== null && visitId !== null) return <Link href={`/visits/${visitId}`}>{planWords.takenOver(visitNo ?? 0, accepted.by)}</Link>;
  if (change === 'new') return planWords.changes.new;
  if (change === 'stays' || was === null) return promised ? planWords.changes.promised(visitNo ?? 0) : planWords.changes.stays(visitNo ?? 0);
  const before = namesOf(was.people);
  return planWords.changes.shift(visitNo ?? 0, `${weekday(was.day)}, ${was.startAt}`, before === namesOf(people) ? '' : before);
}
