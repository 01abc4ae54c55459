import { group } from 'd3-array';
import { fleetOf } from '../../../seed/generate/enlarge.js';
import { DAY_MS } from '../../../seed/generate/period.js';
import { BadInput, type Options, type Print, type Values } from '../evaluation.js';
import { coverage, lateShare, mdape, printer } from '../forecast-scores.js';
import { intervalByLives } from '../interval-by-lives.js';
import { drawnSkid } from './drawn-skid.js';
import { type Swept, sweep } from './sweep.js';

export const help = `
npm run evaluate -- handread [--skids 12] [--every 7d] [--seed 1]

What forecasts lose where people read a skid now and then: the skids of the demo, or others like them by the seed, with two years of a record. Once every cycle is logged; once a person
reads the gauges every so many days, at whatever point of the cycle, to the marks of the gauges. Each skid is forecast in every week, by what runs in the service, from what was known by then:
days to the limit of membranes and cartridges at 30, 50, 70 and 90 % of the way, and the permeability 14, 30 and 60 days ahead. The limit is truly met when the load that was drawn for a run is
spent; permeabilities ahead are held against the full log. answered: questions that ours had an answer to. interval: 19 of 20 fleets, by drawing whole lives again.
`;

export const options: Options = {
  skids: { type: 'string', default: '12' },
  every: { type: 'string', default: '7d' },
  seed: { type: 'string', default: '1' },
};

const RECORD_DAYS = 730;
const UNTIL_MS = Date.UTC(2026, 0, 1);

export async function evaluate(values: Values, print: Print): Promise<void> {
  const [count, seed] = [wholeNumber(values, 'skids'), wholeNumber(values, 'seed')];
  const every = Number(/^(\d+)d$/.exec(String(values.every))?.[1]);
  if (!(every >= 1 && every <= 28)) throw new BadInput(`--every must be 1d to 28d, not "${String(values.every)}"`);
  const record = { fromMs: UNTIL_MS - RECORD_DAYS * DAY_MS, untilMs: UNTIL_MS };
  // Each seed has skids of its own: the first has those of the demo, the next ones the fleets like it.
  const fleet = fleetOf(count * seed);
  const siteOf = new Map(fleet.sites.map((site) => [site.key, site]));
  const skids = fleet.skids.slice(-count).flatMap((plan) => {
    const site = siteOf.get(plan.siteKey);
    return site === undefined ? [] : [drawnSkid(plan, site, record, every)];
  });
  const set = `${count} skids, seed ${seed}`;
  const logged = sweep(skids, ({ logged }) => logged, record.fromMs, record.untilMs);
  figures(print, { set, case: 'every cycle logged' }, logged);
  const read = sweep(skids, ({ readUntil }, ms) => readUntil(ms), record.fromMs, record.untilMs);
  figures(print, { set, case: `read every ${every} days` }, read);
}

function figures(print: Print, shared: { readonly set: string; readonly case: string }, { scores, asked }: Swept): void {
  for (const [signal, { asked: n, answered }] of Object.entries(asked)) {
    printer(print, shared)('answered', '%', n === 0 ? null : (100 * answered) / n, { signal, n });
  }
  for (const [signal, ofSignal] of group(scores, (one) => one.signal)) {
    const figure = printer(print, { ...shared, signal });
    for (const [measure, ofMeasure] of group(ofSignal, (one) => one.measure)) {
      const name = measure === 'ahead' ? 'mdape_ahead' : 'mdape_to_limit';
      const where = (at: number | string, method: string, n: number) => ({ at, method, n });
      for (const [at, ofShare] of [...group(ofMeasure, (one) => one.at)].sort(([one], [other]) => one - other)) {
        for (const [method, list] of group(ofShare, (one) => one.method)) {
          const lives = new Set(list.map(({ life }) => life)).size;
          const interval = intervalByLives(list, mdape);
          figure(name, '%', mdape(list), { ...where(at, method, list.length), lives, ...(interval === undefined ? {} : { interval }) });
          if (measure === 'to limit') figure('late_share', '%', lateShare(list), where(at, method, list.length));
        }
      }
      for (const at of ['pooled', ...new Set(ofMeasure.map((one) => one.at))]) {
        const list = ofMeasure.filter((one) => one.method === 'ours' && (at === 'pooled' || one.at === at));
        const covered = coverage(list);
        if (covered === null) continue;
        const interval = intervalByLives(list, (drawn) => coverage(drawn)?.value ?? null);
        const of = { ...where(at, 'ours', list.length), of: measure, independent: covered.lives };
        figure('coverage80', '%', covered.value, { ...of, ...(interval === undefined ? {} : { interval }) });
        figure('width80', '%', covered.width, of);
      }
    }
  }
}

function wholeNumber(values: Values, name: string): number {
  const number = Number(values[name]);
  if (!Number.isInteger(number) || number < 1) throw new BadInput(`--${name} must be a whole number from 1 on, not "${String(values[name])}"`);
  return number;
}
