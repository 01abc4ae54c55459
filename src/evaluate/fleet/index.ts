import { BadInput, type Options, type Print, type Values } from '../evaluation.js';
import { forecastFleet } from '../fleet-of-skids/forecast-fleet.js';
import { planFleet } from '../fleet-of-visits/plan-fleet.js';

export const help = `
npm run evaluate -- fleet --visits 500 [--technicians 12] [--weeks 4] [--remote 0.2] [--seconds 10] [--seed 1]
npm run evaluate -- fleet --skids 24 [--seed 1]

With --visits, plans the visits of a fleet that is drawn from the seed: sites in towns and around them, people with skills and days off, work with a first, a best and a
last day. --remote puts a share of the work at sites 4 to 7 hours from every home. Costs are minutes. Seconds are CPU seconds of this process. Each line is
a figure; plans are checked by a checker of its own before they are printed.

With --skids, forecasts a fleet that is drawn from the seed, 900 days of it: when cartridges and membranes meet their limits, in every week, from what was known by then, and the permeability 14, 30
and 60 days ahead, by what runs in the service and by simple methods. Pressure drops climb by a power or exponentially, each skid by its own; storms are shared by regions; people renew at
the limit or by the calendar. A limit is truly met when the load that was drawn for the run is spent. interval: 19 of 20 fleets, by drawing whole lives again.
`;

export const options: Options = {
  visits: { type: 'string' },
  skids: { type: 'string' },
  technicians: { type: 'string', default: '12' },
  weeks: { type: 'string', default: '4' },
  remote: { type: 'string', default: '0' },
  seconds: { type: 'string', default: '10' },
  seed: { type: 'string', default: '1' },
};

export async function evaluate(values: Values, print: Print): Promise<void> {
  if ((values.visits === undefined) === (values.skids === undefined)) {
    throw new BadInput('Say how many visits are to be planned, --visits 500, or how many skids are to be forecast, --skids 24');
  }
  if (values.skids === undefined) await planFleet(values, print);
  else forecastFleet(values, print);
}
