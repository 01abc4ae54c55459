import { ITEMS } from './data/items.js';
import { PEOPLE } from './data/people.js';
import { RULES } from './data/rules.js';
import { COMPANY } from './data/sites.js';
import { type Course, courseOf } from './generate/course.js';
import { fleetOf } from './generate/enlarge.js';
import { DAY_MS } from './generate/period.js';
import { sharedRecord, skidRecord } from './generate/records.js';
import { reportedCycles } from './generate/report-cycles.js';
import { minuteSamples } from './generate/samples.js';
import { workOf } from './generate/work.js';
import type { SitePlan } from './plan.js';
import type { Scenario, ScenarioPerson, ScenarioSite } from './types.js';

export interface ScenarioOptions {
  /** The end of the record; the demo takes the last full hour, so that it is fresh whenever it is loaded */
  readonly until: Date;
  /** 12 by default */
  readonly skids?: number;
  /** Length of the record, 2 by default */
  readonly years?: number;
  /** Makes cycles longer and fewer, about so many a day; by default each skid has its own, 30 to 70 */
  readonly cyclesPerDay?: number;
}

const SAMPLE_DAYS = 14;

/**
 * The demo: an invented service company with the skids of its clients, and what became of them over two years up to a moment. The same options give the same
 * scenario. Cycles and samples are made while they are read; everything else is ready.
 */
export function buildScenario({ until, skids = 12, years = 2, cyclesPerDay }: ScenarioOptions): Scenario {
  const untilMs = until.getTime();
  const record = { fromMs: untilMs - Math.round(years * 365) * DAY_MS, untilMs };
  const fleet = fleetOf(skids);
  const siteOf = new Map(fleet.sites.map((site) => [site.key, site]));
  const planOf = new Map(fleet.skids.map((plan) => [plan.key, plan]));
  const courseOfKey = (key: string): Course | null => {
    const plan = planOf.get(key);
    const site = plan && siteOf.get(plan.siteKey);
    return plan && site ? courseOf(plan, site, record) : null;
  };
  const records = fleet.skids.flatMap(({ key }) => {
    const course = courseOfKey(key);
    return course ? [skidRecord(course, cyclesPerDay)] : [];
  });
  const sharedRecords = fleet.shared.flatMap((plan) => {
    const site = siteOf.get(plan.siteKey);
    const served = records.filter(({ skid }) => plan.servesKeys.includes(skid.key));
    return site ? [sharedRecord(plan, site, served, record)] : [];
  });
  const all = [...records, ...sharedRecords];
  const byGateway = fleet.skids.filter(({ readBy }) => readBy === 'gateway');
  const sampled = byGateway.filter(({ hasSamples }) => hasSamples);
  const samplesFrom = new Date(untilMs - SAMPLE_DAYS * DAY_MS);
  const known = {
    until,
    sites: fleet.sites.map(toSite),
    people: peopleOf(new Set(siteOf.keys()), new Set(fleet.clients.map(({ key }) => key))),
    skids: all.map(({ skid }) => skid),
    positions: all.flatMap(({ positions }) => positions),
    serviceEntries: all.flatMap(({ serviceEntries }) => serviceEntries),
  };
  return {
    ...known,
    demo: true,
    company: COMPANY,
    from: new Date(record.fromMs),
    clients: fleet.clients,
    gateways: [...new Set(byGateway.map(({ siteKey }) => siteKey))].map((siteKey) => ({ siteKey, name: 'Gateway in the switch room' })),
    stateChanges: records.flatMap(({ stateChanges }) => stateChanges),
    items: ITEMS,
    fittings: all.flatMap(({ fittings }) => fittings),
    cleans: records.flatMap(({ cleans }) => cleans),
    meters: all.flatMap(({ meters }) => meters),
    tanks: all.flatMap(({ tanks }) => tanks),
    rules: RULES,
    handReadings: records.flatMap(({ handReadings }) => handReadings),
    work: workOf(known),
    skidsWithCycles: byGateway.map(({ key }) => key),
    *cyclesOf(skidKey) {
      const course = courseOfKey(skidKey);
      if (course?.plan.readBy === 'gateway') yield* reportedCycles(course, cyclesPerDay);
    },
    skidsWithSamples: cyclesPerDay === undefined ? sampled.map(({ key }) => key) : [],
    samplesFrom,
    *samplesOf(skidKey) {
      const course = courseOfKey(skidKey);
      if (course?.plan.hasSamples && cyclesPerDay === undefined) yield* minuteSamples(course, samplesFrom.getTime());
    },
  };
}

function toSite({ key, clientKey, name, latitude, longitude, timeZone, accessHours }: SitePlan): ScenarioSite {
  return { key, clientKey, name, latitude, longitude, timeZone, accessHours };
}

/** People of clients and sites that a smaller fleet does not have are left out. */
function peopleOf(siteKeys: ReadonlySet<string>, clientKeys: ReadonlySet<string>): ScenarioPerson[] {
  return PEOPLE.filter(({ clientKey, siteKey }) => (clientKey === null || clientKeys.has(clientKey)) && (siteKey === null || siteKeys.has(siteKey)));
}
