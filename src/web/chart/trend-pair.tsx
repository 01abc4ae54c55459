import { useId, useMemo, useState } from 'react';
import { DAY_MS, DIMENSION_OF, extentOf, spanFrom, toTrend } from '../../shared/trend-series.js';
import type { Schemas } from '../api/client.js';
import { Empty } from '../ui/states.js';
import { useUnits } from '../units-choice.js';
import { words } from '../words.js';
import { TrendFigure } from './trend-figure.js';

/** Days shown; 0: the whole record. */
const SPANS = [30, 90, 365, 0] as const;

/** Trends of one skid above each other's time: one choice of span and one cursor for all of them. */
export function TrendPair({ views, timeZone }: { views: readonly Schemas['TrendView'][]; timeZone: string }) {
  const name = useId();
  const units = useUnits();
  const [days, setDays] = useState<(typeof SPANS)[number]>(365);
  const [cursorMs, setCursor] = useState(Number.POSITIVE_INFINITY);
  const drawn = useMemo(
    () =>
      views.map((view) => {
        const code = units[DIMENSION_OF[view.quantity]];
        return { view, code, trend: toTrend(view, code, timeZone) };
      }),
    [views, units, timeZone],
  );
  const extent = useMemo(() => extentOf(drawn.map(({ trend }) => trend)), [drawn]);
  const span = useMemo(() => {
    const { firstMs, lastMs, endMs } = extent ?? { firstMs: Date.now() - 30 * DAY_MS, lastMs: Date.now(), endMs: Date.now() };
    return spanFrom(days === 0 ? firstMs : Math.max(firstMs, lastMs - days * DAY_MS), { lastMs, endMs });
  }, [extent, days]);

  if (views.length === 0) return <Empty title={words.trend.none}>{words.trend.noneWhy}</Empty>;
  return (
    <section className="trends" aria-label={words.trend.title}>
      <fieldset className="choice no-print">
        <legend className="unseen">{words.trend.span}</legend>
        {SPANS.map((each) => (
          <label key={each}>
            <input type="radio" name={name} checked={days === each} onChange={() => setDays(each)} />
            <span>{words.trend.spans[each]}</span>
          </label>
        ))}
      </fieldset>
      <div className="pair">
        {drawn.map(({ view, code, trend }) => (
          <TrendFigure
            key={view.quantity}
            view={view}
            trend={trend}
            code={code}
            span={span}
            cursorMs={cursorMs === Number.POSITIVE_INFINITY ? (extent?.lastMs ?? 0) : cursorMs}
            onCursor={setCursor}
          />
        ))}
      </div>
    </section>
  );
}
