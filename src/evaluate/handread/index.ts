import { fleetOf } from '../../../seed/generate/enlarge.js';
import { DAY_MS } from '../../../seed/generate/period.js';
import { BadInput, type Options, type Print, type Values } from '../evaluation.js';
import { drawnSkid } from './drawn-skid.js';
import { sweptFigures } from './figures.js';
import { sweep } from './sweep.js';

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
  sweptFigures(print, { set, case: 'every cycle logged' }, logged);
  const read = sweep(skids, ({ readUntil }, ms) => readUntil(ms), record.fromMs, record.untilMs);
  sweptFigures(print, { set, case: `read every ${every} days` }, read);
}

function wholeNumber(values: Values, name: string): number {
  const number = Number(values[name]);
  if (!Number.isInteger(number) || number < 1) throw new BadInput(`--${name} must be a whole number from 1 on, not "${String(values[name])}"`);
  return number;
}
