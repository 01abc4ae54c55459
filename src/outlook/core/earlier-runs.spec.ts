import { describe, expect, test } from '@jest/globals';
import { dayPlus } from '../../shared/day.js';
import { earlierLives, type RecordDay } from './earlier-runs.js';

const record = (length: number, of: (index: number) => Partial<RecordDay>): RecordDay[] =>
  Array.from({ length }, (_, index) => ({ day: dayPlus('2026-01-01', index), filtrateM3: 100, permeability: null, cartridgeDpKpa: null, ...of(index) }));

describe('earlier sets of cartridges', () => {
  const days = record(60, (index) => ({ cartridgeDpKpa: index < 30 ? 40 + 4 * index : 40 + index }));

  test('lived as long as the water that ran through them; one changed early is censored', () => {
    const sets = [
      { fittedOn: '2026-01-01', removedOn: '2026-01-31' },
      { fittedOn: '2026-01-31', removedOn: '2026-02-20' },
    ];
    expect(earlierLives(days, sets, 150)).toEqual([
      { loadM3: 2000, ended: 'censored' },
      { loadM3: 3000, ended: 'limit' },
    ]);
  });

  test('that were fitted before the record begins are left out', () => {
    expect(earlierLives(days, [{ fittedOn: '2025-12-01', removedOn: '2026-01-20' }], 150)).toEqual([]);
  });
});
