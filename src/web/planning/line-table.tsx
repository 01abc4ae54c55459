import { type Column, GroupedSheet } from '../ui/sheet.js';
import { weekday } from '../visits/weekday.js';
import { planWords } from '../words/plan.js';
import { limitInWords, limitsByLine } from './limits-by-line.js';
import type { Line } from './plan-lines.js';
import { isAgreed, type ShownPlan } from './shown-plan.js';
import { clockOf } from './tour-geometry.js';

interface TableProps {
  readonly plan: ShownPlan;
  /** Narrowed to the lines of one person; empty: everybody */
  readonly personId: string;
  readonly onOpen: (key: string) => void;
}

/** The visits of a plan in words: the same lines as in the drawing. */
export function LineTable({ plan, personId, onOpen }: TableProps) {
  const limits = limitsByLine(plan);
  const columns: readonly Column<Line>[] = [
    { name: planWords.no, short: true, cell: ({ no }) => no },
    { name: planWords.time, short: true, cell: ({ stay }) => `${clockOf(stay.start)}–${clockOf(stay.end)}` },
    {
      name: planWords.site,
      cell: ({ stay, key }) => (
        <button type="button" className="plain-button" onClick={() => onOpen(key)}>
          {stay.siteName}
        </button>
      ),
    },
    { name: planWords.who, cell: ({ people }) => people.map(({ name }) => name).join(', ') },
    {
      name: planWords.work,
      wide: true,
      cell: ({ stay }) =>
        stay.stops.map(({ id, kind, text }) => (
          <span key={id} className="line">
            {text}
            {kind === 'visit' && ` (${planWords.kinds.visit})`}
          </span>
        )),
    },
    { name: planWords.limit, wide: true, cell: ({ key, stay }) => (isAgreed(stay) ? planWords.agreedShort : limitInWords(limits.get(key) ?? null, stay.end)) },
  ];
  const shown = plan.lines.filter(({ people }) => personId === '' || people.some(({ id }) => id === personId));
  const days = [...new Set(shown.map(({ day }) => day))];
  return (
    <section className="block">
      <h2>{planWords.lines}</h2>
      <GroupedSheet
        caption={planWords.lines}
        columns={columns}
        groups={days.map((day) => ({ key: day, head: weekday(day), rows: shown.filter((line) => line.day === day) }))}
        keyOf={({ key }) => key}
      />
    </section>
  );
}
