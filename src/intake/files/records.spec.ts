import { describe, expect, test } from '@jest/globals';
import { stringify } from 'csv-stringify/sync';
import fc from 'fast-check';
import { Records } from './records.js';

function split(pieces: readonly string[], { mark = ',', width }: { mark?: string; width?: number } = {}) {
  const rows: [number, string[]][] = [];
  const broken: [number, string][] = [];
  const records = new Records(
    mark,
    (cells, line) => rows.push([line, cells]),
    (line, _, message) => broken.push([line, message]),
  );
  if (width !== undefined) records.expect(width);
  for (const piece of pieces) records.add(piece);
  records.end();
  return { rows, broken };
}

describe('rows of a log file', () => {
  test('end with LF or CRLF, and the last one without', () => {
    expect(split(['a,b\r\n1,2\n\n3,4']).rows).toEqual([
      [1, ['a', 'b']],
      [2, ['1', '2']],
      [4, ['3', '4']],
    ]);
  });

  test('are the same however the file is cut into pieces', () => {
    const text = 'a,b\r\n"x, y","say ""hi"""\r\n"two\nlines",2\r\n3,4\r\n';
    const whole = split([text]);
    expect(whole.rows).toEqual([
      [1, ['a', 'b']],
      [2, ['x, y', 'say "hi"']],
      [3, ['two\nlines', '2']],
      [5, ['3', '4']],
    ]);
    for (let cut = 1; cut < text.length; cut++) expect(split([text.slice(0, cut), text.slice(cut)])).toEqual(whole);
    expect(split(Array.from(text))).toEqual(whole);
  });

  test('behind a stray quote are not lost', () => {
    const { rows, broken } = split(['a,b\n"1,2\n3,4\n5,6\n'], { width: 2 });
    expect(broken).toEqual([[2, 'has a quote that does not close']]);
    expect(rows.slice(1)).toEqual([
      [3, ['3', '4']],
      [4, ['5', '6']],
    ]);
  });

  test('between two stray quotes are not lost', () => {
    const { rows, broken } = split(['a,b\n"1,2\n3,4\n5,6"\n7,8\n'], { width: 2 });
    expect(broken.map(([line]) => line)).toEqual([2, 4]);
    expect(rows.map(([line]) => line)).toEqual([1, 3, 5]);
  });

  test('with a quote in the middle of a cell are broken, their neighbours not', () => {
    const { rows, broken } = split(['"a","b"\n"1" x,"2"\n"3","4"\n']);
    expect(broken).toEqual([[2, 'has a quote where none may be']]);
    expect(rows.map(([, cells]) => cells)).toEqual([
      ['a', 'b'],
      ['3', '4'],
    ]);
  });

  test('without an end are dropped, and reading goes on behind them', () => {
    const { rows, broken } = split(['a,b\n', 'x'.repeat(50_000), 'x'.repeat(50_000), 'x'.repeat(50_000), '\n1,2\n']);
    expect(broken).toEqual([[2, 'is longer than 65536 characters']]);
    expect(rows).toEqual([
      [1, ['a', 'b']],
      [3, ['1', '2']],
    ]);
  });

  test('may have other marks between cells', () => {
    expect(split(['a;b\n1,5;2\n'], { mark: ';' }).rows[1]?.[1]).toEqual(['1,5', '2']);
    expect(split(['a\tb\n"1\t5"\t2\n'], { mark: '\t' }).rows[1]?.[1]).toEqual(['1\t5', '2']);
  });

  test('read back what another program writes, cut anywhere', () => {
    const cell = fc.string({ unit: fc.constantFrom('a', 'b', '"', ',', '\n', ' ', 'ü'), maxLength: 5 });
    fc.assert(
      fc.property(fc.array(fc.tuple(cell, cell, cell), { minLength: 1, maxLength: 8 }), fc.nat(60), (table, cut) => {
        const text = stringify(table, { quoted: true });
        expect(split([text.slice(0, cut), text.slice(cut)], { width: 3 }).rows.map(([, cells]) => cells)).toEqual(table);
      }),
      { numRuns: 200 },
    );
  });
});
