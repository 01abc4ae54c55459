import { describe, expect, test } from '@jest/globals';
import { type PlacedField, readFields } from './read-fields.js';
import { TABLE_FIELDS } from './table-fields.js';

const placed = (name: string, place: number, unit: PlacedField['unit']): PlacedField => {
  const field = [...TABLE_FIELDS.cycles, ...TABLE_FIELDS.events].find((each) => each.name === name);
  if (field === undefined) throw new Error(name);
  return { field, place, unit, column: `their ${name}` };
};
const plain = { decimal: '.', missingValues: [], words: {} } as const;

describe('fields of a row', () => {
  test('stand in the unit that their name says, whatever the column is written in', () => {
    const fields = [placed('filtration_minutes', 0, 'h'), placed('flow_m3h', 1, 'L/s'), placed('volume_l', 2, 'm3'), placed('strength_g_l', 3, 'mg/L')];
    expect(readFields(['0.5', '10', '0.2', '450000'], fields, plain).values).toEqual({
      filtration_minutes: 30,
      flow_m3h: 36,
      volume_l: 200,
      strength_g_l: 450,
    });
  });

  test('are kept as they are where the unit is that of the name', () => {
    for (const minutes of [7, 29.9, 0.1]) {
      expect(readFields([String(minutes)], [placed('filtration_minutes', 0, 'min')], plain).values.filtration_minutes).toBe(minutes);
    }
  });

  test('that are empty or missing are not there', () => {
    expect(
      readFields(['', '-', ' '], [placed('flow_m3h', 0, null), placed('feed_kpa', 1, null), placed('note', 5, null)], { ...plain, missingValues: ['-'] }),
    ).toEqual({
      values: {},
      faults: [],
    });
  });

  test('take words of the export for what they stand for', () => {
    expect(readFields(['Spülung'], [placed('event', 0, null)], { ...plain, words: { Spülung: 'CEB' } }).values).toEqual({ event: 'CEB' });
  });

  test('name the column of the file where a cell is wrong', () => {
    expect(readFields(['12,5', 'a\0'], [placed('feed_kpa', 0, 'kPa'), placed('note', 1, null)], plain).faults).toEqual([
      { column: 'their feed_kpa', value: '12,5', message: 'has a comma, but the profile says that the decimal mark is a point' },
      { column: 'their note', value: 'a\0', message: 'holds a character that cannot be stored (U+0000)' },
    ]);
  });
});
