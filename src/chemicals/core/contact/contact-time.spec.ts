import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { contactTime, type Segment } from './contact-time.js';
import { GIARDIA_3_LOG, PH_COLUMNS } from './ct-tables.js';
import { requiredCt } from './required-ct.js';

const TANK: Segment = { volumeM3: 2, flowM3h: 20, baffling: 'poor', chlorineMgL: 0.8, temperatureC: 17.3, ph: 7.2 };
const giardia = (temperatureC: number, ph: number, chlorineMgL: number) => {
  const found = requiredCt({ temperatureC, ph, chlorineMgL });
  return found.kind === 'required' ? found.giardia3LogCt : undefined;
};

describe('the CT that is required', () => {
  // Published readings of the tables: pH 7.2, 15 °C, 1.1 mg/L is read at 7.5, 15 °C, 1.2; 2 log at 15 °C, 7.5, 1 mg/L are 60; 1.5 log at 0.5 °C, pH 8, 1 mg/L are 152.
  test('is read with temperature down, pH up and chlorine up', () => {
    expect(giardia(15, 7.2, 1.1)).toBe(92);
    expect(((giardia(15, 7.5, 1) ?? NaN) * 2) / 3).toBe(60);
    expect((giardia(0.5, 8, 1) ?? NaN) / 2).toBe(152);
    expect(giardia(14.9, 7.5, 1)).toBe(134);
  });

  test('holds the edges of the tables', () => {
    expect(giardia(40, 5, 0.1)).toBe(24);
    expect(giardia(25, 9, 8)).toBe(97);
    expect(requiredCt({ temperatureC: 10, ph: 9.3, chlorineMgL: 1 })).toMatchObject({ giardia3LogCt: null, virus4LogCt: 45 });
    expect(requiredCt({ temperatureC: 10, ph: 10.2, chlorineMgL: 1 })).toMatchObject({ kind: 'outside the tables', reason: 'The tables end at pH 10' });
    expect(requiredCt({ temperatureC: 10, ph: 7, chlorineMgL: 0 })).toMatchObject({ kind: 'outside the tables' });
  });

  test('rises with chlorine and pH and falls with temperature in every cell', () => {
    for (const { rows } of GIARDIA_3_LOG) {
      expect(rows).toHaveLength(14);
      for (const [at, row] of rows.entries()) {
        expect(row).toHaveLength(PH_COLUMNS.length);
        expect([...row].sort((a, b) => a - b)).toEqual(row);
        for (const [column, value] of row.entries()) expect(value).toBeGreaterThanOrEqual(rows[at - 1]?.[column] ?? 0);
      }
    }
  });
});

describe('contact time', () => {
  // Worked from the formulas apart: T10 1.8 min, CT 1.44, table 88; then 0.6 mg/L for 45 min, table 86.
  test('adds up over the segments', () => {
    const one = contactTime([TANK]);
    expect(one.segments[0]).toMatchObject({ required: { giardia3LogCt: 88, virus4LogCt: 4 } });
    expect(one.segments[0]?.t10Minutes).toBeCloseTo(1.8, 9);
    expect(one.segments[0]?.giardiaRatio).toBeCloseTo(0.01636, 5);
    expect(one.giardiaLog).toBeCloseTo(0.049, 3);
    expect(one.virusLog).toBeCloseTo(1.44, 9);
    const two = contactTime([TANK, { ...TANK, baffling: 'plug flow in a pipe', volumeM3: 15, chlorineMgL: 0.6 }]);
    expect(two.segments[1]?.ct).toBeCloseTo(27, 9);
    expect((two.giardiaLog ?? NaN) / 3).toBeCloseTo(0.3303, 4);
    expect(two.giardiaLog).toBeCloseTo(0.991, 3);
  });

  test('does not guess beyond the tables', () => {
    expect(contactTime([{ ...TANK, ph: 9.4 }])).toMatchObject({ giardiaLog: null });
    expect(contactTime([{ ...TANK, temperatureC: 0 }])).toMatchObject({ giardiaLog: null, virusLog: 0 });
    expect(contactTime([])).toEqual({ segments: [], giardiaLog: 0, virusLog: 0 });
  });

  test('a greater vessel never counts less, a greater flow never more', () => {
    const size = fc.double({ min: 0.1, max: 100, noNaN: true });
    fc.assert(
      fc.property(size, size, (volumeM3, flowM3h) => {
        const log = (given: Partial<Segment>) => contactTime([{ ...TANK, volumeM3, flowM3h, ...given }]).virusLog;
        expect(log({ volumeM3: volumeM3 * 1.1 })).toBeGreaterThan(log({}));
        expect(log({ flowM3h: flowM3h * 1.1 })).toBeLessThan(log({}));
      }),
      { numRuns: 30 },
    );
  });
});
