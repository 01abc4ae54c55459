import { describe, expect, test } from '@jest/globals';
import { USUAL_ROADS } from '../core/plan-facts/estimated-way.js';
import { travelTable } from '../core/travel/travel-table.js';
import { KeptWays } from './kept-ways.js';

const HOME = { id: 'home', latitude: 50, longitude: 8, extraMinutes: 0 };
const SITE = { id: 'site', latitude: 50.4, longitude: 8, extraMinutes: 10 };
const KNOWN = { usual: USUAL_ROADS, regions: [], overrides: [] };
const BY_HAND = { fromId: 'home', toId: 'site', bothWays: true, km: 40, minutes: 95 };

describe('ways that were kept', () => {
  const ways = { table: travelTable([HOME, SITE], KNOWN, null), fault: null };
  const kept = new KeptWays();
  kept.keep([HOME, SITE], KNOWN, ways);

  test('serve the next plan between the same places', () => {
    expect(kept.find([{ ...HOME }, { ...SITE }], { ...KNOWN })).toBe(ways);
  });

  test.each([
    ['a place more', [HOME, SITE, { ...SITE, id: 'other' }], KNOWN],
    ['places in another order', [SITE, HOME], KNOWN],
    ['a home elsewhere', [{ ...HOME, longitude: 8.1 }, SITE], KNOWN],
    ['a longer way in', [HOME, { ...SITE, extraMinutes: 15 }], KNOWN],
    ['a way set by hand', [HOME, SITE], { ...KNOWN, overrides: [BY_HAND] }],
    ['slower roads', [HOME, SITE], { ...KNOWN, usual: { ...USUAL_ROADS, farKmh: 60 } }],
  ])('do not serve with %s', (_, places, known) => {
    expect(kept.find(places, known)).toBeNull();
  });

  test('are none at first, even where there is no place', () => {
    expect(new KeptWays().find([], KNOWN)).toBeNull();
  });
});
