import { useId, useMemo } from 'react';
import { drawTrend, type Trend, type TrendBox, type TrendSpan } from '../../shared/trend.js';
import { trendSentence } from '../../shared/trend-sentence.js';
import type { UnitCode } from '../../shared/units.js';
import type { Schemas } from '../api/client.js';
import { number, wallDay } from '../format.js';
import { unitDigits, unitLabel } from '../units-choice.js';
import { words } from '../words.js';
import { readPoint } from './read-point.js';
import { TrendNumbers } from './trend-numbers.js';
import { TrendPlot } from './trend-plot.js';
import { useWidth } from './use-width.js';

const STEPS = 400;
const FEW_EVENTS = 8;
const NARROW_PX = 520;

export interface TrendFigureProps {
  readonly view: Schemas['TrendView'];
  readonly trend: Trend;
  readonly code: UnitCode;
  readonly span: TrendSpan;
  readonly cursorMs: number;
  readonly onCursor: (atMs: number) => void;
}

/** One quantity in one panel: the sentence first, then the drawing, a cursor that speaks, and the numbers. */
export function TrendFigure({ view, trend, code, span, cursorMs, onCursor }: TrendFigureProps) {
  const id = useId();
  const [hold, width] = useWidth<HTMLDivElement>();
  const unit = unitLabel(code);
  const digits = unitDigits(code);
  const box = useMemo<TrendBox>(() => ({ width, height: width < NARROW_PX ? 230 : 264, left: 46, right: 10, top: 22, bottom: 24 }), [width]);
  const drawing = useMemo(() => (width === 0 ? null : drawTrend(trend, span, box)), [trend, span, box, width]);
  const lengthMs = Math.max(1, span.toMs - span.fromMs);
  const cursor = Math.min(span.toMs, Math.max(span.fromMs, cursorMs));
  const reading = readPoint(trend, cursor, unit, digits);

  return (
    <figure className="trend" aria-labelledby={`${id}-title`}>
      <figcaption>
        <h2 id={`${id}-title`}>
          {view.title} <span className="unit">{unit}</span>
        </h2>
        <p id={`${id}-sentence`}>{trendSentence(view, trend.limit, unit, digits)}</p>
      </figcaption>
      <div
        className="plot-hold"
        ref={hold}
        onPointerMove={(event) => drawing !== null && onCursor(drawing.msAt(event.clientX - event.currentTarget.getBoundingClientRect().left))}
      >
        {drawing !== null && (
          <>
            <TrendPlot
              drawing={drawing}
              box={box}
              spanMs={lengthMs}
              limitLabel={`${view.limitLabel} ${number(trend.limit, digits)}`}
              baselineLabel={`${words.trend.baseline} ${number(trend.baseline, digits)}`}
              titleId={`${id}-title`}
              sentenceId={`${id}-sentence`}
            />
            <svg className="plot-cursor no-print" width={box.width} height={box.height} aria-hidden="true">
              <path d={`M${drawing.xAt(cursor).toFixed(1)} ${box.top}V${box.height - box.bottom}`} />
            </svg>
          </>
        )}
      </div>
      <div className="read no-print">
        <label htmlFor={`${id}-read`} className="unseen">
          {words.trend.readPoint(view.title)}
        </label>
        <input
          id={`${id}-read`}
          type="range"
          min={0}
          max={STEPS}
          value={Math.round(((cursor - span.fromMs) / lengthMs) * STEPS)}
          aria-valuetext={reading}
          onChange={(event) => onCursor(span.fromMs + (Number(event.target.value) / STEPS) * lengthMs)}
        />
        <output htmlFor={`${id}-read`}>{reading}</output>
      </div>
      <EventKey events={trend.events} />
      {view.remarks.map((remark) => (
        <p key={remark} className="hint">
          {remark}
        </p>
      ))}
      <Basis view={view} />
      <TrendNumbers trend={trend} title={view.title} digits={digits} />
    </figure>
  );
}

function EventKey({ events }: { events: Trend['events'] }) {
  if (events.length === 0) return null;
  const list = (
    <ol className="event-key">
      {events.map((event, at) => (
        // The flags in the drawing carry the place in this list.
        <li key={at}>
          {wallDay(event.atMs)}: {event.label}
        </li>
      ))}
    </ol>
  );
  if (events.length <= FEW_EVENTS) return list;
  return (
    <details className="more">
      <summary>{words.trend.events(events.length)}</summary>
      {list}
    </details>
  );
}

/** What the forecast and the drawing were made from. */
function Basis({ view }: { view: Schemas['TrendView'] }) {
  const { outlook, leftOut, baselineFrom } = view;
  const lines = [
    ...(outlook?.kind === 'outlook' ? [outlook.reason] : []),
    ...(outlook?.dataUsed ?? []),
    ...(baselineFrom === null ? [] : [`${words.trend.baseline}: ${baselineFrom}`]),
    ...leftOut.map(({ reason, cycles }) => words.trend.leftOut(number(cycles), reason)),
    ...(outlook === null ? [] : [words.trend.model(outlook.model, outlook.modelVersion)]),
  ];
  if (lines.length === 0) return null;
  return (
    <details className="more">
      <summary>{words.trend.basis}</summary>
      <ul>
        {lines.map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
    </details>
  );
}
