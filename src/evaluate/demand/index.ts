import { readFileSync } from 'node:fs';
import { demandClassOf } from '../../store/core/demand/simple/demand-class.js';
import { BadInput, type Options, type Print, type Values } from '../evaluation.js';
import { printSet } from './figures.js';
import { METHODS } from './methods.js';
import { runMethod } from './run-method.js';
import { isOfThe1046, readSeries } from './series.js';

export const help = `
npm run evaluate -- demand --series FILE [--ids FILE] [--months N]

Forecasts the need of spare parts and keeps stock by the forecasts, ours beside simple methods. FILE is a CSV with a head: an id, then one column a month,
oldest first; series with an empty month are left out. --ids names the series of a set of their own, one id a line; without it that set follows the rule by
which the literature keeps 1,046 of the car parts. All series are the catalogue, whichever are scored. --months takes only the first N months.

The last 12 months are looked at. Stock: at the end of each month what is there, on order and owed is raised to a quantile of the need of the next four
months, and arrives after three; the same nominal service for all items, from 0.5 to 0.9998. fill: units served at once over units needed. saving: against the
best simple method; -1 to 1. crps and pinball: of the need of the next three months, at ten origins; "one origin" is six months before the end.
Intervals are 90 %, by drawing items.
`;

export const options: Options = {
  series: { type: 'string', file: true },
  ids: { type: 'string', file: true },
  months: { type: 'string' },
};

const FEWEST_MONTHS = 26;

export async function evaluate(values: Values, print: Print): Promise<void> {
  if (typeof values.series !== 'string') throw new BadInput('Say which series: --series FILE');
  const { series, incomplete } = readSeries(readFileSync(values.series, 'utf8'));
  const there = series[0]?.months.length ?? 0;
  const months = values.months === undefined ? there : Number(values.months);
  if (!Number.isInteger(months) || months < FEWEST_MONTHS || months > there) {
    throw new BadInput(`It takes from ${FEWEST_MONTHS} to ${there} months, not ${String(values.months ?? there)}`);
  }
  const histories = series.map((one) => one.months.slice(0, months));
  const all = series.map((_, item) => item);
  const subset = typeof values.ids === 'string' ? idsOf(readFileSync(values.ids, 'utf8')) : null;
  const chosen = all.filter((item) => {
    const one = series[item];
    return one !== undefined && (subset === null ? isOfThe1046(one) : subset.has(one.id));
  });
  if (subset !== null && chosen.length === 0) throw new BadInput('None of the ids is that of a complete series');
  const outcomes = METHODS.map((method) => ({ method: method.name, outcome: runMethod(method, histories) }));
  const classes = histories.map((history) => demandClassOf(history.slice(0, -12)));
  if (chosen.length > 0) printSet(subset === null ? '1,046 rule' : 'ids', chosen, outcomes, classes, print);
  printSet('all', all, outcomes, classes, print);
  print({ measure: 'series', value: series.length, unit: 'series', method: 'all', left_out: incomplete, months });
}

const idsOf = (text: string): ReadonlySet<string> => new Set(text.split(/[\s,;]+/).filter((id) => id !== ''));
