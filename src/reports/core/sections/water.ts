import { axisDate, number } from '../../../shared/format.js';
import type { Block } from '../document.js';
import type { PeriodManner } from '../manner.js';
import type { SkidPeriod, WaterMonth } from '../period-data.js';
import { words } from '../words.js';

/** A span long enough for the axis to be written in months. */
const YEAR_MS = 366 * 86_400_000;

export function waterSection({ months }: Pick<SkidPeriod, 'months'>, { period }: PeriodManner, withTable: boolean): Block[] {
  const heading: Block = { kind: 'heading', level: 2, text: words.water.title };
  const days = total(months, ({ days: each }) => each);
  if (days === 0) return [heading, { kind: 'paragraph', text: words.water.none }];
  const columns = monthsBetween(period.from, period.to).map((month) => ({
    label: axisDate(Date.parse(`${month}-01T00:00:00Z`), YEAR_MS),
    value: months.find((each) => each.month === month)?.filtrateM3 ?? null,
  }));
  const water = words.water;
  const sentence = water.total(number(filtrateOf(months)), number(days), number(total(months, ({ hours }) => hours)));
  const alt = water.alt(columns.map(({ label, value }) => `${label} ${number(value)}`).join(', '));
  return [
    heading,
    { kind: 'paragraph', text: months.some(({ estimated }) => estimated) ? `${sentence} ${water.estimated}` : sentence },
    ...(columns.length > 1 ? [{ kind: 'bars', alt, bars: { unit: 'm³', columns } } as const] : []),
    ...(withTable ? [tableOf(months)] : []),
  ];
}

export const filtrateOf = (months: readonly WaterMonth[]): number => total(months, ({ filtrateM3 }) => filtrateM3 ?? 0);

function tableOf(months: readonly WaterMonth[]): Block {
  const { title, month, filtrate, days, hours, cycles } = words.water;
  return {
    kind: 'table',
    caption: title,
    columns: [{ name: month }, ...[filtrate, days, hours, cycles].map((name) => ({ name, numeric: true }))],
    rows: months.map((row) => [
      axisDate(Date.parse(`${row.month}-01T00:00:00Z`), YEAR_MS),
      number(row.filtrateM3),
      number(row.days),
      number(row.hours),
      number(row.cycles),
    ]),
  };
}

const total = (months: readonly WaterMonth[], of: (month: WaterMonth) => number): number => months.reduce((sum, month) => sum + of(month), 0);

/** Every month of the period, whether anything was measured in it or not. */
function monthsBetween(from: string, to: string): string[] {
  const months: string[] = [];
  for (let [year, month] = [Number(from.slice(0, 4)), Number(from.slice(5, 7))]; ; month += 1) {
    if (month > 12) [year, month] = [year + 1, 1];
    const name = `${year}-${String(month).padStart(2, '0')}`;
    if (name > to.slice(0, 7)) return months;
    months.push(name);
  }
}
