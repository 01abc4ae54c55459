import { BadInput, type Options, type Print, type Values } from '../evaluation.js';
import { planFleet } from '../fleet-of-visits/plan-fleet.js';

export const help = `
npm run evaluate -- fleet --visits 500 [--technicians 12] [--weeks 4] [--remote 0.2] [--seconds 10] [--seed 1]

Plans the visits of a fleet that is drawn from the seed: sites in towns and around them, people with skills and days off, work with a first, a best and a
last day. --remote puts a share of the work at sites 4 to 7 hours from every home. Costs are minutes. Seconds are CPU seconds of this process. Each line is
a figure; plans are checked by a checker of its own before they are printed.
`;

export const options: Options = {
  visits: { type: 'string' },
  technicians: { type: 'string', default: '12' },
  weeks: { type: 'string', default: '4' },
  remote: { type: 'string', default: '0' },
  seconds: { type: 'string', default: '10' },
  seed: { type: 'string', default: '1' },
};

export async function evaluate(values: Values, print: Print): Promise<void> {
  if (values.visits === undefined) throw new BadInput('Say how many visits are to be planned: --visits 500');
  await planFleet(values, print);
}
