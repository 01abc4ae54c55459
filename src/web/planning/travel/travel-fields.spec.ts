import { describe, expect, test } from '@jest/globals';
import { byHandBody, byHandStart, checkByHand, checkRegion, pairInWords, regionBody, regionStart } from './travel-fields.js';

describe('roads of a region', () => {
  test('begin as the usual ones, and are sent as numbers however the decimal is written', () => {
    const entries = { ...regionStart(undefined), name: ' Hills ', factor: '1,45' };
    expect(checkRegion(entries)).toEqual({});
    expect(regionBody(entries, ['a'])).toEqual({ name: 'Hills', siteIds: ['a'], factor: 1.45, nearKmh: 35, farKmh: 70 });
  });

  test('that cannot be are told at their fields', () => {
    const wrong = checkRegion({ ...regionStart(undefined), factor: '0.9', nearKmh: 'fast', farKmh: '201' });
    expect(Object.keys(wrong)).toEqual(['name', 'factor', 'nearKmh', 'farKmh']);
  });
});

describe('a time set by hand', () => {
  const entries = { ...byHandStart({}), fromId: 'a', toId: 'b', minutes: '95', km: '12.5', note: 'By ferry ' };

  test('holds for both ways unless somebody says otherwise', () => {
    expect(byHandBody(entries)).toEqual({ fromId: 'a', toId: 'b', bothWays: true, minutes: 95, km: 12.5, note: 'By ferry' });
    expect(byHandBody({ ...entries, bothWays: '' }).bothWays).toBe(false);
  });

  test('needs two places, whole minutes and a length', () => {
    expect(checkByHand(entries)).toEqual({});
    expect(Object.keys(checkByHand(byHandStart({})))).toEqual(['fromId', 'toId', 'minutes', 'km']);
    expect(Object.keys(checkByHand({ ...entries, toId: 'a', minutes: '1.5' }))).toEqual(['toId', 'minutes']);
  });

  test('says where it leads, also where a place is no more', () => {
    expect(pairInWords({ fromName: 'North', toName: null, bothWays: false })).toBe('North to a place that is no more');
  });
});
