import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { integritySign } from './integrity-sign.js';
import { noFlowSign } from './no-flow-sign.js';
import { tankSign } from './tank-sign.js';
import { type BreakdownTimes, timesAtOdds } from './times-at-odds.js';

const now = new Date('2025-11-25T12:00:00Z');
const hoursAgo = (hours: number) => new Date(now.getTime() - hours * 3_600_000);

describe('an integrity test', () => {
  test('that failed is a danger, with its reasons, until a later one passes', () => {
    const failed = integritySign({ at: hoursAgo(5), outcome: 'failed', reasons: ['The pressure falls by 1.4 kPa/min, above the limit of 0.9'] });
    expect(failed).toMatchObject({ kind: 'shown', severity: 'danger', noticedAt: hoursAgo(5), request: expect.stringContaining('above the limit of 0.9') });
    expect(integritySign({ at: hoursAgo(1), outcome: 'passed', reasons: [] })).toEqual({ kind: 'over', sign: 'integrity test failed', since: hoursAgo(1) });
  });

  test('that was never made says nothing', () => expect(integritySign(null)).toBeNull());
});

describe('no flow', () => {
  const record = { lastFlowAt: hoursAgo(30), firstWithoutAt: hoursAgo(29.9), lastReadingAt: hoursAgo(0.1), lastFullAt: null };

  test('for a day while readings arrive means no water, since the first reading without', () => {
    expect(noFlowSign(record, now)).toMatchObject({ kind: 'shown', severity: 'no water', downFrom: record.firstWithoutAt });
  });

  test('for less than a day is a pause', () => {
    expect(noFlowSign({ ...record, firstWithoutAt: hoursAgo(20) }, now)).toMatchObject({ kind: 'over' });
  });

  test('with a full product tank is standby, however long', () => {
    const standing = { ...record, lastFlowAt: hoursAgo(300), firstWithoutAt: hoursAgo(299) };
    expect(noFlowSign({ ...standing, lastFullAt: hoursAgo(0.2) }, now)).toMatchObject({ kind: 'over' });
    expect(noFlowSign(standing, now)).toMatchObject({ kind: 'shown', request: expect.stringContaining('Ask at the site') });
  });

  test('while the product tank falls counts from when it was last full', () => {
    const fell = { ...record, lastFlowAt: hoursAgo(300), firstWithoutAt: hoursAgo(299), lastFullAt: hoursAgo(26) };
    expect(noFlowSign(fell, now)).toMatchObject({
      kind: 'shown',
      downFrom: hoursAgo(26),
      request: expect.stringContaining('last full at 2025-11-24 10:00 UTC'),
    });
    expect(noFlowSign({ ...fell, lastFullAt: hoursAgo(23) }, now)).toMatchObject({ kind: 'over' });
    expect(noFlowSign({ ...record, lastFullAt: hoursAgo(40) }, now)).toMatchObject({ downFrom: record.firstWithoutAt });
  });

  test('is not read from silence: neither where readings have stopped long ago, nor where the skid never filtered', () => {
    expect(noFlowSign({ ...record, lastFlowAt: hoursAgo(900), firstWithoutAt: hoursAgo(899), lastReadingAt: hoursAgo(500) }, now)).toBeNull();
    expect(noFlowSign({ ...record, lastFlowAt: null, firstWithoutAt: hoursAgo(60), lastReadingAt: hoursAgo(0) }, now)).toBeNull();
  });

  test('is over when filtrate flows', () => {
    expect(noFlowSign({ ...record, lastFlowAt: hoursAgo(0.2), firstWithoutAt: null, lastReadingAt: null }, now)).toEqual({
      kind: 'over',
      sign: 'no flow',
      since: hoursAgo(0.2),
    });
  });
});

describe('a tank', () => {
  const tank = { id: 'T', name: 'Hypochlorite drum', chemical: 'NaOCl', dosed: true, earlyDays: 2 };

  test('that may run out within three days means less water where it is dosed all the time, and can wait where it serves cleans', () => {
    expect(tankSign(tank, now)).toMatchObject({ severity: 'less water', request: expect.stringContaining('dosed all the time') });
    expect(tankSign({ ...tank, dosed: false }, now)).toMatchObject({ severity: 'can wait', request: expect.stringContaining('cleans alone') });
  });

  test('says nothing where its cover is not known, and is over from three days on', () => {
    expect(tankSign({ ...tank, earlyDays: null }, now)).toBeNull();
    fc.assert(
      fc.property(fc.double({ min: 0, max: 90, noNaN: true }), (earlyDays) => (tankSign({ ...tank, earlyDays }, now)?.kind === 'over') === earlyDays >= 3),
      { numRuns: 50 },
    );
  });
});

describe('times of a breakdown', () => {
  const fine = { noticedAt: hoursAgo(2), downFrom: hoursAgo(3), restoredAt: hoursAgo(1), repairMinutes: 30 };
  const fields = (change: Partial<BreakdownTimes>) => timesAtOdds({ ...fine, ...change }, now).map(({ field }) => field);

  test('may be so', () => expect(fields({})).toEqual([]));
  test('are not in the future', () => expect(fields({ noticedAt: hoursAgo(-1), restoredAt: hoursAgo(-2) })).toEqual(['noticedAt', 'restoredAt']));
  test('end after they began', () => {
    expect(fields({ restoredAt: hoursAgo(4) })).toEqual(['restoredAt']);
    expect(fields({ downFrom: null, restoredAt: hoursAgo(4) })).toEqual(['restoredAt']);
  });
  test('of the repair are possible', () => expect(fields({ repairMinutes: -1 })).toEqual(['repairMinutes']));
});
