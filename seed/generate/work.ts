import { NOTICE_CHOICES } from '../data/notice-choices.js';
import { PLACES, STOCK } from '../data/stock.js';
import type { Scenario } from '../types.js';
import type { ScenarioWork } from '../work-types.js';
import { pastBreakdowns } from './past-breakdowns.js';
import { pastVisits } from './past-visits.js';
import { DAY_MS } from './period.js';
import { proofsOf } from './proofs.js';

const YEAR_DAYS = 365;

/** What the department has in stock, has done and has proved, as far as the fleet has the skids and the people for it. */
export function workOf(scenario: Pick<Scenario, 'until' | 'sites' | 'skids' | 'people' | 'positions' | 'serviceEntries'>): ScenarioWork {
  const { until, sites, people } = scenario;
  const siteKeys = new Set(sites.map(({ key }) => key));
  const personKeys = new Set(people.map(({ key }) => key));
  const places = PLACES.filter(({ siteKey }) => siteKey === null || siteKeys.has(siteKey));
  const placeKeys = new Set(places.map(({ key }) => key));
  return {
    places,
    stockPosts: STOCK.filter(({ toKey }) => placeKeys.has(toKey)).map(({ kind, daysAgo, by, note, fromKey, toKey, lines }) => ({
      kind,
      at: new Date(until.getTime() - daysAgo * DAY_MS),
      by,
      note,
      moves: Object.entries(lines).map(([itemCode, [quantity, lot = null]]) => ({ itemCode, lot, quantity, fromKey, toKey })),
    })),
    visits: pastVisits(scenario, until.getTime() - YEAR_DAYS * DAY_MS),
    breakdowns: pastBreakdowns(scenario),
    ...proofsOf(scenario),
    noticeChoices: NOTICE_CHOICES.filter(({ personKey }) => personKeys.has(personKey)),
  };
}
