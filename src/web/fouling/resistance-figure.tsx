import '../styles/fouling.css';
import type { Schemas } from '../api/client.js';
import { day, number } from '../format.js';
import { type Column, Sheet } from '../ui/sheet.js';
import { foulingWords as said } from '../words/fouling.js';

type PartsDay = Schemas['ResistanceDayView'];

/** From the bottom up: what stays, then what ever lighter cleans take. */
const PARTS = ['clean', 'irreversible', 'cip', 'ceb', 'hydraulic'] as const;
const WIDTH = 1040;
const HEIGHT = 280;
const FOOT = 24;
const HEAD = 20;
const WEEK = 7;

const COLUMNS: readonly Column<PartsDay>[] = [
  { name: said.day, cell: (row) => day(row.day) },
  ...PARTS.map((part): Column<PartsDay> => ({ name: said[part], numeric: true, cell: (row) => number(row[part], 3) })),
];

/** Stacked areas: a part below nought is drawn as nothing, and stands in the numbers as it is. */
export function ResistanceFigure({ days }: { days: readonly PartsDay[] }) {
  const stacked = days.map((row) => {
    let sum = 0;
    return PARTS.map((part) => {
      sum += Math.max(0, row[part] ?? 0);
      return sum;
    });
  });
  const most = Math.max(...stacked.map((levels) => levels.at(-1) ?? 0));
  const x = (at: number) => (days.length < 2 ? 0 : (at / (days.length - 1)) * WIDTH);
  const y = (value: number) => HEIGHT - FOOT - (value / most) * (HEIGHT - FOOT - HEAD);
  const area = (part: number) => {
    const top = stacked.map((levels, at) => `${x(at).toFixed(1)},${y(levels[part] ?? 0).toFixed(1)}`);
    const bottom = stacked.map((levels, at) => `${x(at).toFixed(1)},${y(part === 0 ? 0 : (levels[part - 1] ?? 0)).toFixed(1)}`);
    return `M${top.join('L')}L${bottom.reverse().join('L')}Z`;
  };
  const [first, last] = [days[0], days.at(-1)];
  return (
    <figure>
      <svg className="parts-figure" viewBox={`0 0 ${WIDTH} ${HEIGHT}`} role="img" aria-label={said.chart}>
        {PARTS.map((part, at) => (
          <path key={part} className={`part-area part-${part}`} d={area(at)} />
        ))}
        <line className="part-foot" x1="0" x2={WIDTH} y1={HEIGHT - FOOT} y2={HEIGHT - FOOT} />
        <text x="0" y="13">{`${number(most, 2)} ${said.unit}`}</text>
        {first !== undefined && (
          <text x="0" y={HEIGHT - 6}>
            {day(first.day)}
          </text>
        )}
        {last !== undefined && (
          <text x={WIDTH} y={HEIGHT - 6} textAnchor="end">
            {day(last.day)}
          </text>
        )}
      </svg>
      <ul className="part-keys">
        {PARTS.toReversed().map((part) => (
          <li key={part}>
            <svg viewBox="0 0 16 16" aria-hidden="true">
              <rect className={`part-area part-${part}`} width="16" height="16" />
            </svg>
            {said[part]}
          </li>
        ))}
      </ul>
      <details className="more">
        <summary>{said.asNumbers}</summary>
        <Sheet caption={said.split} columns={COLUMNS} rows={days.filter((_, at) => (days.length - 1 - at) % WEEK === 0)} keyOf={(row) => row.day} scrolls />
      </details>
    </figure>
  );
}
