import { describe, expect, test } from '@jest/globals';
import { toFields, toMoments } from './site-moments.js';

const NAMES = ['downFrom', 'restoredAt'];

describe('times of a record', () => {
  test('are typed by the clocks at the site and sent as moments', () => {
    expect(toMoments({ cause: 'wear', downFrom: '2026-11-24T06:00', restoredAt: null }, NAMES, 'Europe/Madrid')).toEqual({
      cause: 'wear',
      downFrom: '2026-11-24T05:00:00.000Z',
      restoredAt: null,
    });
  });

  test('come back as they were typed', () => {
    const typed = { downFrom: '2026-07-01T23:30', restoredAt: '2026-07-02T00:15' };
    expect(toFields(toMoments(typed, NAMES, 'America/Denver'), NAMES, 'America/Denver')).toEqual(typed);
  });

  test('that are none are left for the service to judge', () => {
    expect(toMoments({ downFrom: 'yesterday' }, NAMES, 'UTC')).toEqual({ downFrom: 'yesterday' });
  });
});
