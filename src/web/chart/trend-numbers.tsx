import { useMemo, useState } from 'react';
import type { Trend } from '../../shared/trend.js';
import { DAY_MS } from '../../shared/trend-series.js';
import { number } from '../format.js';
import { type Column, Sheet } from '../ui/sheet.js';
import { words } from '../words.js';

interface Month {
  readonly month: string;
  readonly days: number;
  readonly low: number;
  readonly middle: number;
  readonly high: number;
}

/** The same story in rows, for people who do not read charts; worked out only when it is opened. */
export function TrendNumbers({ trend, title, digits }: { trend: Trend; title: string; digits: number }) {
  const [isOpen, setOpen] = useState(false);
  const months = useMemo(() => (isOpen ? byMonth(trend) : []), [isOpen, trend]);
  const columns: Column<Month>[] = [
    { name: words.trend.month, cell: (row) => row.month },
    { name: words.trend.daysMeasured, numeric: true, cell: (row) => number(row.days) },
    { name: words.trend.lowest, numeric: true, cell: (row) => number(row.low, digits) },
    { name: words.trend.middle, numeric: true, cell: (row) => number(row.middle, digits) },
    { name: words.trend.highest, numeric: true, cell: (row) => number(row.high, digits) },
  ];
  return (
    <details className="more numbers" onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>{words.trend.asNumbers}</summary>
      {isOpen && <Sheet caption={words.trend.byMonth(title)} columns={columns} rows={months} keyOf={(row) => row.month} scrolls />}
    </details>
  );
}

/** Newest month first. */
function byMonth(trend: Trend): Month[] {
  const months = new Map<string, number[]>();
  trend.values.forEach((value, index) => {
    if (value === null) return;
    const month = new Date(trend.firstDayMs + index * DAY_MS).toISOString().slice(0, 7);
    const values = months.get(month) ?? [];
    values.push(value);
    months.set(month, values);
  });
  return [...months].reverse().map(([month, values]) => {
    values.sort((a, b) => a - b);
    const at = (share: number) => values[Math.round(share * (values.length - 1))] ?? 0;
    return { month, days: values.length, low: at(0), middle: at(0.5), high: at(1) };
  });
}
