import { describe, expect, test } from '@jest/globals';
import { dayPlus } from '../../shared/day.js';
import { earlierDeclines, earlierLives, type RecordDay } from './earlier-runs.js';

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

describe('earlier runs between recovery cleans', () => {
  test('give the decline of ln(permeability) for each m3 that a m2 filtered', () => {
    const days = record(61, (index) => ({ permeability: 200 * Math.exp(-0.01 * (index % 30)) }));
    const [decline] = earlierDeclines(days, ['2026-01-01', '2026-01-31'], 50);
    // 2 m3/m2 a day and 1 % a day; the medians of three days lie 26 days apart, 29 days of load between the cleans
    expect(decline).toBeCloseTo((0.01 * 26) / (29 * 2), 9);
  });

  test('that are short say nothing', () => {
    expect(
      earlierDeclines(
        record(20, () => ({ permeability: 200 })),
        ['2026-01-02', '2026-01-10'],
        50,
      ),
    ).toEqual([]);
  });
});
