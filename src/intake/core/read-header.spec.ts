import { describe, expect, test } from '@jest/globals';
import { guessMark, readHeader } from './read-header.js';

const need = (...names: string[]) => names.map((name) => ({ name, needed: true }));

describe('the header of a log file', () => {
  test('says where each wanted column stands, in any order and with others between', () => {
    expect(readHeader(['time', 'x', ' flow ', 'tmp'], need('tmp', 'time', 'flow'))).toEqual({ kind: 'header', places: [3, 0, 2] });
  });

  test('names a missing column and those that are there', () => {
    expect(readHeader(['Zeit', 'Fluss'], need('time'))).toEqual({
      kind: 'bad-header',
      faults: [{ column: 'time', message: 'is missing; the file has "Zeit", "Fluss"' }],
    });
  });

  test('refuses a wanted name that two columns have, and not another one', () => {
    expect(readHeader(['time', 'x', 'x'], need('time')).kind).toBe('header');
    expect(readHeader(['time', 'x', 'x'], need('time', 'x')).kind).toBe('bad-header');
  });

  test('finds a column by its number', () => {
    expect(readHeader(['time', 'value', 'value'], need('#3'))).toEqual({ kind: 'header', places: [2] });
    expect(readHeader(['time'], need('#3')).kind).toBe('bad-header');
  });

  test('lists all faults at once, and not a thousand names', () => {
    const wide = Array.from({ length: 1000 }, (_, i) => `column ${i}`);
    const read = readHeader(wide, need('a', 'b'));
    expect(read.kind === 'bad-header' && read.faults.length).toBe(2);
    expect(JSON.stringify(read).length).toBeLessThan(3000);
  });
});

describe('the mark between cells', () => {
  test.each([
    ['time,flow', ','],
    ['Zeit;Durchfluss, m³/h;TMP', ';'],
    ['time\tflow\ttmp', '\t'],
    ['"a;b;c",d', ','],
    ['time', ','],
  ])('of %s is %j', (line, mark) => expect(guessMark(line)).toBe(mark));
});
