import { useId, useMemo } from 'react';
import type { Schemas } from '../api/client.js';
import { useWidth } from '../chart/use-width.js';
import { axisDate, day, number } from '../format.js';
import { toLocalField } from '../site-time.js';
import { type Column, Sheet } from '../ui/sheet.js';
import { chemicalWords } from '../words/chemicals.js';
import { type BalanceBox, drawBalance } from './balance-drawing.js';

const said = chemicalWords.tankPage;
const NARROW_PX = 520;
type Point = Schemas['BookPointView'];

/** The running balance of a tank within its limits: the words first, then the drawing, then the numbers. */
export function BalanceChart({ books, timeZone }: { books: Schemas['TankBooksView']; timeZone: string }) {
  const id = useId();
  const [hold, width] = useWidth<HTMLDivElement>();
  const { points } = books;
  const box = useMemo<BalanceBox>(() => ({ width, height: width < NARROW_PX ? 220 : 264, left: 46, right: 12, top: 14, bottom: 24 }), [width]);
  const drawing = useMemo(() => (width === 0 ? null : drawBalance(points, box)), [points, box, width]);
  const dayOf = (at: string) => day(toLocalField(Date.parse(at), timeZone).slice(0, 10));
  const signals = points.filter(({ signal }) => signal !== null).map(({ at }) => dayOf(at));
  const spanMs = Date.parse(points.at(-1)?.at ?? '') - Date.parse(points[0]?.at ?? '');
  return (
    <figure className="trend" aria-labelledby={`${id}-title`}>
      <figcaption>
        <h3 id={`${id}-title`}>
          {said.chart} <span className="unit">{said.unit}</span>
        </h3>
        <p id={`${id}-words`}>
          {books.words} {signals.length > 0 && said.signals(signals.join(', '))}
        </p>
      </figcaption>
      <div className="plot-hold" ref={hold}>
        {drawing !== null && (
          // biome-ignore lint/a11y/noSvgWithoutTitle: named by the heading of the figure
          <svg className="plot" width={box.width} height={box.height} role="img" aria-labelledby={`${id}-title`} aria-describedby={`${id}-words`}>
            <g className="plot-grid">
              {drawing.levels.map(({ value, y }) => (
                <path key={value} d={`M${box.left} ${y.toFixed(1)}H${box.width - box.right}`} />
              ))}
            </g>
            <g className="plot-text">
              {drawing.levels.map(({ value, y }) => (
                <text key={value} x={box.left - 6} y={y + 4} textAnchor="end">
                  {number(value, 0)}
                </text>
              ))}
              {drawing.dates.map(({ atMs, x }) => (
                <text key={atMs} x={x} y={box.height - 6} textAnchor={x > box.width - 40 ? 'end' : x < box.left + 20 ? 'start' : 'middle'}>
                  {axisDate(atMs, spanMs)}
                </text>
              ))}
            </g>
            <path d={drawing.band} className="plot-band" />
            <path d={drawing.line} className="plot-line" />
            {drawing.dots.map(({ x, y, signal, fits }) => (
              <circle key={x} cx={x} cy={y} r={signal ? 5 : 2.5} className={signal ? 'books-signal' : fits ? 'books-dip' : 'books-odd'} />
            ))}
          </svg>
        )}
      </div>
      <p className="hint">
        <span className="books-key" aria-hidden="true" /> {said.limit}. {said.sumsHint}
      </p>
      <details className="more">
        <summary>{said.numbers}</summary>
        <Sheet caption={said.chart} columns={columnsOf(dayOf)} rows={[...points].reverse()} keyOf={({ at }) => at} scrolls />
      </details>
    </figure>
  );
}

function columnsOf(dayOf: (at: string) => string): readonly Column<Point>[] {
  return [
    { name: said.dip, cell: ({ at }) => dayOf(at) },
    { name: said.held, numeric: true, cell: ({ volumeL }) => number(volumeL) },
    { name: said.went, numeric: true, cell: ({ observedL }) => number(observedL) },
    { name: said.expected, numeric: true, cell: ({ expectedL }) => number(expectedL) },
    { name: said.sum, numeric: true, cell: ({ cumulativeL }) => number(cumulativeL) },
    { name: said.plusMinus, numeric: true, cell: ({ limitL }) => number(limitL) },
    { name: said.highSum, numeric: true, cell: ({ high }) => number(high, 1) },
    { name: said.lowSum, numeric: true, cell: ({ low }) => number(low, 1) },
    { name: said.signal, cell: ({ signal, fits }) => (fits ? (signal === null ? '' : chemicalWords.states[signal]) : chemicalWords.states['dips do not fit']) },
  ];
}
