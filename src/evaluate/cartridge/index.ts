import { group } from 'd3-array';
import type { EarlierLife } from '../../outlook/core/clogging/course.js';
import { leftByElasticity } from '../../outlook/core/clogging/elasticity.js';
import { lifePrior } from '../../outlook/core/clogging/life-prior.js';
import { CURVES } from '../baselines/curves.js';
import { BadInput, type Options, type Print, type Values } from '../evaluation.js';
import { coverage, lateShare, mdape, printer, type Scored } from '../forecast-scores.js';
import { columnOf, readTable } from '../read-table.js';
import { type CartridgeSet, dayMet, readSets } from './sets.js';

export const help = `
npm run evaluate -- cartridge --series cartridge_dp_daily.csv [--thresholds 4.5,6,9]

Forecasts the days until the pressure drop of a set of cartridges meets a threshold, at 30, 50, 70 and 90 % of the way to it. The file has a row a day: date, cartridge_dp_psi
(or cartridge_dp_kpa, cartridge_dp). Nobody wrote down when sets were changed: the record is split at lasting falls to less than three quarters, and at gaps of more than two weeks; a set that
never meets a threshold is no case for it, but its days count as a life cut off. Each case is printed, then the middle of all of them.

ours has the lives of the other sets; "ours, earlier sets" of those before it alone; "ours, no lives" goes by the signal.
`;

export const options: Options = {
  series: { type: 'string', file: true },
  thresholds: { type: 'string', default: '4.5,6,9' },
};

const COLUMNS = ['cartridge_dp_psi', 'cartridge_dp_kpa', 'cartridge_dp'];
const SHARES = [0.3, 0.5, 0.7, 0.9] as const;

export async function evaluate({ series, thresholds }: Values, print: Print): Promise<void> {
  if (typeof series !== 'string') throw new BadInput('--series is needed');
  const limits = String(thresholds).split(',').map(Number);
  if (limits.some((limit) => !(limit > 0))) throw new BadInput(`--thresholds must be numbers above 0, not "${String(thresholds)}"`);
  const column = columnOf(readTable(series, ['date']), COLUMNS);
  if (column === null) throw new BadInput(`${series} needs the pressure drop in one of ${COLUMNS.join(', ')}`);
  const sets = readSets(series, column);
  const scored: { at: number; method: string; score: Scored }[] = [];
  const figure = printer(print, { set: `${sets.length} sets` });
  for (const threshold of limits) {
    for (const [index, set] of sets.entries()) {
      const life = dayMet(set, threshold);
      if (life === null) continue;
      for (const at of SHARES) {
        const said = saidOf(sets, index, threshold, at * life);
        for (const [method, { truth, forecast, ...range }] of Object.entries(said)) {
          scored.push({ at, method, score: { life: set.from, truth, forecast, ...range } });
          const more = { method, at, n: 1, case: `set of ${set.from} to ${threshold}`, days_left: truth, forecast_days: rounded(forecast), ...inDays(range) };
          figure('ape_to_threshold', '%', finite((100 * Math.abs(forecast - truth)) / truth), more);
        }
      }
    }
  }
  if (scored.length === 0) throw new BadInput(`${series} holds no set that meets ${limits.join(', ')} after a week below it`);
  for (const [at, ofShare] of group(scored, (one) => one.at)) {
    for (const [method, list] of group(ofShare, (one) => one.method)) {
      const scores = list.map(({ score }) => score);
      const where = { method, at, n: scores.length };
      figure('mdape_to_threshold', '%', mdape(scores), where);
      figure('late_share', '%', lateShare(scores), where);
      const covered = coverage(scores);
      if (covered === null) continue;
      figure('coverage80', '%', covered.value, { ...where, independent: covered.lives, by_chance: covered.interval.map(Math.round) });
      figure('width80', '%', covered.width, where);
    }
  }
}

type Said = Omit<Scored, 'life'>;

/** What each method says on a day of a set, from what was read until then. */
function saidOf(sets: readonly CartridgeSet[], index: number, threshold: number, day: number): Readonly<Record<string, Said>> {
  const set = sets[index];
  if (set === undefined) return {};
  const time = set.days.filter((one) => one <= day);
  const value = set.value.slice(0, time.length);
  const now = Math.max(1, time.at(-1) ?? 0);
  const truth = (dayMet(set, threshold) ?? now) - now;
  const lives = sets.map((one, order) => lifeTo(one, order, threshold));
  const course = { clock: time, level: value.map((one) => one / threshold) };
  const ours = (known: readonly EarlierLife[]): Said => {
    const asked = { condition: 'cartridges', group: 'cartridges', lnStrength: null, order: index };
    const left = leftByElasticity(
      course,
      lifePrior(known, asked, () => 1),
      now,
    );
    return { truth, forecast: left.p50, low: left.p10, high: left.p90 };
  };
  const curves = Object.entries(CURVES).map(([method, curve]) => [method, { truth, forecast: curve({ time, value, limit: threshold, now }) }] as const);
  return {
    ...Object.fromEntries(curves),
    'ours, no lives': ours([]),
    'ours, earlier sets': ours(lives.slice(0, index)),
    ours: ours(lives.filter((_, other) => other !== index)),
  };
}

/** A set as a life to a threshold, cut off where it was changed before. */
function lifeTo(set: CartridgeSet, order: number, threshold: number): EarlierLife {
  const met = dayMet(set, threshold);
  return {
    key: set.from,
    condition: 'cartridges',
    group: 'cartridges',
    life: Math.max(1, met ?? set.days.at(-1) ?? 1),
    ended: met === null ? 'censored' : 'limit',
    order,
    lnStrength: null,
    course: { clock: set.days, level: set.value.map((one) => one / threshold) },
  };
}

const finite = (value: number): number | null => (Number.isFinite(value) ? value : null);

const rounded = (days: number): number | null => finite(Math.round(10 * days) / 10);

const inDays = ({ low, high }: Pick<Said, 'low' | 'high'>) =>
  low === undefined || high === undefined ? {} : { interval: [Math.round(10 * low) / 10, Math.round(10 * high) / 10] as const };
