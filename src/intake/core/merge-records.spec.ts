import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { mergeRecords } from './merge-records.js';

interface Row {
  readonly key: string;
  readonly value: number | null;
  readonly at: Date;
}

const AT = new Date('2026-05-01T00:00:00Z');
const row = (key: string, value: number | null): Row => ({ key, value, at: new Date(AT) });
const lines = (...rows: Row[]) => rows.map((each, i) => ({ line: i + 2, row: each }));
const rules = (replaceDiffering: boolean) => ({ keyOf: ({ key }: Row) => key, compared: ['value', 'at'] as const, carried: [], replaceDiffering, loadNo: 9 });
const STORED = [{ row: row('a', 1), loadNo: 4 }];

describe('merging a load with what is stored', () => {
  test('keeps what is new and leaves what is known', () => {
    const merged = mergeRecords(lines(row('a', 1), row('b', 2)), STORED, rules(false));
    expect(merged).toMatchObject({ kept: 1, known: 1, differing: 0, replaced: 0, toUpdate: [], putAside: [] });
    expect(merged.toInsert).toEqual([row('b', 2)]);
  });

  test('reports another value with both values, and changes nothing unless asked', () => {
    const merged = mergeRecords(lines(row('a', 7)), STORED, rules(false));
    expect(merged).toMatchObject({ kept: 0, known: 0, differing: 1, replaced: 0, toInsert: [], toUpdate: [] });
    expect(merged.differences).toEqual([{ line: 2, field: 'value', value: 7, stored: 1 }]);
  });

  test('replaces when asked, and puts the earlier row aside with its load', () => {
    const merged = mergeRecords(lines(row('a', 7)), STORED, rules(true));
    expect(merged).toMatchObject({ differing: 1, replaced: 1, toInsert: [], putAside: [{ row: { value: 1 }, loadNo: 4 }] });
    expect(merged.toUpdate).toEqual([row('a', 7)]);
  });

  test('an empty field says nothing about the stored one', () => {
    expect(mergeRecords(lines(row('a', null)), STORED, rules(true))).toMatchObject({ known: 1, differing: 0 });
  });

  test('carries fields along that are not compared', () => {
    const carrying = { keyOf: ({ key }: Row) => key, compared: ['value'] as const, carried: ['at'] as const, replaceDiffering: true, loadNo: 9 };
    const later = new Date('2026-05-02T00:00:00Z');
    expect(mergeRecords(lines({ ...row('a', 1), at: later }), STORED, carrying)).toMatchObject({ known: 1, toUpdate: [] });
    expect(mergeRecords(lines({ ...row('a', 2), at: later }), STORED, carrying).toUpdate).toEqual([{ key: 'a', value: 2, at: later }]);
  });

  test('takes a key that comes twice as if it came in two loads', () => {
    expect(mergeRecords(lines(row('c', 1), row('c', 1), row('c', 2)), [], rules(false))).toMatchObject({
      kept: 1,
      known: 1,
      differing: 1,
      toInsert: [{ value: 1 }],
    });
    expect(mergeRecords(lines(row('c', 1), row('c', 2)), [], rules(true))).toMatchObject({
      kept: 1,
      replaced: 1,
      toInsert: [{ value: 2 }],
      toUpdate: [],
      putAside: [{ row: { value: 1 }, loadNo: 9 }],
    });
  });

  test('every row is kept, known or differing, and loading the outcome again changes nothing', () => {
    const rows = fc.array(fc.record({ key: fc.constantFrom('a', 'b', 'c'), value: fc.option(fc.integer({ min: 0, max: 2 })) }), { maxLength: 8 });
    fc.assert(
      fc.property(rows, rows, fc.boolean(), (before, coming, replace) => {
        const first = mergeRecords(lines(...before.map(({ key, value }) => row(key, value))), [], rules(true));
        const stored = first.toInsert.map((each) => ({ row: each, loadNo: 1 }));
        const merged = mergeRecords(lines(...coming.map(({ key, value }) => row(key, value))), stored, rules(replace));
        expect(merged.kept + merged.known + merged.differing).toBe(coming.length);
        const updated = new Map(merged.toUpdate.map((each) => [each.key, each]));
        const after = [
          ...stored.map((record) => ({ ...record, row: updated.get(record.row.key) ?? record.row })),
          ...merged.toInsert.map((each) => ({ row: each, loadNo: 2 })),
        ];
        const again = mergeRecords(
          after.map(({ row: each }, i) => ({ line: i, row: each })),
          after,
          rules(replace),
        );
        expect(again).toMatchObject({ kept: 0, differing: 0, known: after.length, toInsert: [], toUpdate: [] });
      }),
      { numRuns: 60 },
    );
  });
});
