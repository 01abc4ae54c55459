import { useId, useMemo } from 'react';
import type { Schemas } from '../api/client.js';
import { useWidth } from '../chart/use-width.js';
import { axisDate, day, number } from '../format.js';
import { type Column, Sheet } from '../ui/sheet.js';
import { cardWords } from '../words/stock-card.js';
import { words } from '../words.js';
import { amount } from './amount.js';
import { drawForecast, type ForecastBox, type ForecastDrawing } from './forecast-drawing.js';

type Card = Schemas['StockCardView'];
const said = cardWords.forecast;
const NARROW_PX = 520;

/** The sentence first, then the balance over time with what is expected, and the numbers. */
export function ForecastFigure({ card }: { card: Card }) {
  const id = useId();
  const [hold, width] = useWidth<HTMLDivElement>();
  const { line } = card;
  const point = Math.max(0, line.point);
  const box = useMemo<ForecastBox>(() => ({ width, height: width < NARROW_PX ? 220 : 264, left: 46, right: 12, top: 18, bottom: 24 }), [width]);
  const drawing = useMemo(() => (width === 0 ? null : drawForecast({ ...card, point }, box)), [card, point, box, width]);
  return (
    <figure className="trend" aria-labelledby={`${id}-title`}>
      <figcaption>
        <h3 id={`${id}-title`}>{said.at(line.placeName)}</h3>
        <p id={`${id}-words`}>{said.sentence(amount(line.onHand, line.unit), amount(point, line.unit), line.neededBy === null ? null : day(line.neededBy))}</p>
      </figcaption>
      <div className="plot-hold" ref={hold}>
        {drawing !== null && (
          // biome-ignore lint/a11y/noSvgWithoutTitle: named by the heading of the figure
          <svg className="plot" width={box.width} height={box.height} role="img" aria-labelledby={`${id}-title`} aria-describedby={`${id}-words`}>
            <Plot drawing={drawing} box={box} label={said.point(amount(point, line.unit))} />
          </svg>
        )}
      </div>
      <p className="hint">{said.key}</p>
      <details className="more">
        <summary>{said.numbers}</summary>
        <Sheet caption={said.at(line.placeName)} columns={COLUMNS} rows={rowsOf(card)} keyOf={({ day: on }) => on} scrolls />
      </details>
    </figure>
  );
}

function Plot({ drawing, box, label }: { drawing: ForecastDrawing; box: ForecastBox; label: string }) {
  const ground = box.height - box.bottom;
  return (
    <>
      <g className="plot-grid">
        {drawing.levels.map(({ value, y }) => (
          <path key={value} d={`M${box.left} ${y.toFixed(1)}H${box.width - box.right}`} />
        ))}
      </g>
      <g className="plot-text">
        {drawing.levels.map(({ value, y }) => (
          <text key={value} x={box.left - 6} y={y + 4} textAnchor="end">
            {number(value)}
          </text>
        ))}
        {drawing.dates.map(({ atMs, x }) => (
          <text key={atMs} x={x} y={box.height - 6} textAnchor={x > box.width - 40 ? 'end' : x < box.left + 20 ? 'start' : 'middle'}>
            {axisDate(atMs, drawing.spanMs)}
          </text>
        ))}
        {drawing.arrivals.map((x) => (
          <text key={x} x={x} y={ground - 2} textAnchor="middle">
            ▲
          </text>
        ))}
        {drawing.expiries.map((x) => (
          <text key={x} x={x} y={box.top} textAnchor="middle">
            ▼
          </text>
        ))}
        <text x={box.width - box.right} y={drawing.pointY - 4} textAnchor="end">
          {label}
        </text>
      </g>
      <path d={drawing.band} className="plot-band" />
      <path d={`M${box.left} ${drawing.pointY.toFixed(1)}H${box.width - box.right}`} className="plot-limit" />
      <path d={drawing.past} className="plot-line" />
      <path d={drawing.expected} className="plot-mid" />
      <path d={`M${drawing.todayX.toFixed(1)} ${box.top}V${ground}`} className="forecast-today" />
    </>
  );
}

interface Row {
  readonly day: string;
  readonly past: number | null;
  readonly expected: number | null;
  readonly low: number | null;
  readonly happens: string;
}

const DECIMALS = 1;
const COLUMNS: readonly Column<Row>[] = [
  { name: said.day, cell: ({ day: on }) => day(on) },
  { name: said.past, numeric: true, cell: ({ past }) => number(past) },
  { name: said.expected, numeric: true, cell: ({ expected }) => number(expected, expected === null ? 0 : DECIMALS) },
  { name: said.low, numeric: true, cell: ({ low }) => number(low, low === null ? 0 : DECIMALS) },
  { name: said.happens, cell: ({ happens }) => happens || words.none },
];

function rowsOf({ past, ahead, arrivals, expiries, line: { unit } }: Card): Row[] {
  const rows = new Map<string, Row>();
  const add = (on: string, what: Partial<Row>) => {
    const before = rows.get(on) ?? { day: on, past: null, expected: null, low: null, happens: '' };
    const happens = [before.happens, what.happens ?? ''].filter(Boolean).join('; ');
    rows.set(on, { ...before, ...what, happens });
  };
  for (const { day: on, onHand } of past) add(on, { past: onHand });
  for (const { day: on, expected, low } of ahead) add(on, { expected, low });
  for (const { day: on, quantity, kind, orderNo, late } of arrivals) {
    const by = kind === 'order' && orderNo !== null ? said.ofOrder(orderNo) : said.ofTransfer;
    add(on, { happens: said.arrives(amount(quantity, unit), by, late) });
  }
  for (const { day: on, quantity, lot } of expiries) add(on, { happens: said.expires(amount(quantity, unit), lot) });
  return [...rows.values()].sort((a, b) => (a.day < b.day ? -1 : 1));
}
