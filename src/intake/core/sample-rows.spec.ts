import { describe, expect, test } from '@jest/globals';
import { DEFAULT_GATES } from './log-profile.js';
import { ProblemList } from './problem-list.js';
import { type SampleColumn, SampleRows, type SampleSettings } from './sample-rows.js';

const COLUMNS: SampleColumn[] = [
  { column: 'P1', place: 1, signal: 'feed_pressure', unit: 'bar' },
  { column: 'T', place: 2, signal: 'temperature', unit: '[degF]' },
  { column: 'Modus', place: 3, signal: 'mode', unit: 'state' },
];
const plain: SampleSettings = { decimal: '.', missingValues: ['---'], words: { Filtration: '1' }, gates: DEFAULT_GATES };

function read(rows: readonly string[][], changes: Partial<SampleSettings> = {}, doubtful = false) {
  const problems = new ProblemList();
  const values: (readonly [number, number, number, number])[] = [];
  const samples = new SampleRows(COLUMNS, { ...plain, ...changes }, problems, (index, _, value, quality, line) => values.push([line, index, value, quality]));
  for (const [i, cells] of rows.entries()) samples.read(['time', ...cells], i + 2, i * 60_000, doubtful);
  return { values, problems: problems.report().listed };
}

describe('rows of samples', () => {
  test('become values in the stored units, and words what they stand for', () => {
    expect(read([['1.5', '50', 'Filtration']]).values).toEqual([
      [2, 0, 150, 0],
      [2, 1, expect.closeTo(10, 10), 0],
      [2, 2, 1, 0],
    ]);
  });

  test('lose a cell that cannot be read, and no other', () => {
    const { values, problems } = read([
      ['1.5', 'warm', '1'],
      ['---', '', '1'],
    ]);
    expect(values.map(([line, index]) => [line, index])).toEqual([
      [2, 0],
      [2, 2],
      [3, 2],
    ]);
    expect(problems).toEqual([{ kind: 'refused', line: 2, column: 'T', value: 'warm', message: 'is not a number' }]);
  });

  test('show a wrong unit: no feed pressure is 180 bar', () => {
    const { values, problems } = read([['180', '50', '1']]);
    expect(values).toHaveLength(2);
    expect(problems[0]).toMatchObject({
      line: 2,
      column: 'P1',
      value: '180',
      message: 'is not possible for feed pressure, which lies between -100 and 1600 kPa',
    });
  });

  test('are marked as stuck from the row on that the profile says, for pressures and flows alone', () => {
    const rows = Array.from({ length: 5 }, () => ['1.5', '50', '1']);
    expect(read(rows).values.every(([, , , quality]) => quality === 0)).toBe(true);
    const { values, problems } = read(rows, { gates: { ...DEFAULT_GATES, stuckAfter: 4 } });
    expect(values.filter(([, , , quality]) => quality !== 0)).toEqual([
      [5, 0, 150, 4],
      [6, 0, 150, 4],
    ]);
    expect(problems).toHaveLength(2);
    expect(
      read(
        rows.map(() => ['0', '50', '1']),
        { gates: { ...DEFAULT_GATES, stuckAfter: 4 } },
      ).problems,
    ).toEqual([]);
  });

  test('of a doubtful hour are kept with that mark', () => {
    const { values, problems } = read([['1.5', '50', '1']], {}, true);
    expect(values.map(([, , , quality]) => quality)).toEqual([1, 1, 1]);
    expect(problems).toMatchObject([{ kind: 'doubtful', line: 2 }]);
  });
});
