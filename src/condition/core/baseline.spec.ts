import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { dayPlus } from '../../shared/day.js';
import { type BaselineInput, baselines, type CleanDay } from './baseline.js';

const day = (n: number) => dayPlus('2025-01-01', n);

/** Daily medians from 2025-01-01 on; `null` is a day without a value */
function record(medians: readonly (number | null)[]): BaselineInput['days'] {
  return medians.map((median, n) => ({ day: day(n), permeability: median === null ? null : { median, low: median, high: median, n: 40 } }));
}

const of = (days: BaselineInput['days'], cleans: readonly CleanDay[] = [], commissioning: BaselineInput['commissioning'] = null) =>
  baselines(Object.freeze({ days, cleans, commissioning, referenceC: 20 }));

const commissioning = { day: '2024-06-01', permeabilityLmhBar: 250, referenceC: 20 };
const falling = (from: number, days: number) => Array.from({ length: days }, (_, i) => from - i);

describe('the baseline of commissioning', () => {
  test('is the value of commissioning where there is one', () => {
    expect(of([], [], commissioning).commissioning).toEqual({ kind: 'baseline', ...commissioning, from: 'commissioning', assumed: false });
  });

  test('is brought to the reference temperature of the record: 250 at 25 °C are 222.2 at 20 °C', () => {
    expect(of([], [], { ...commissioning, referenceC: 25 }).commissioning).toMatchObject({
      referenceC: 20,
      permeabilityLmhBar: expect.closeTo(250 * 0.8886, 1),
    });
  });

  test('is else assumed from the first 30 days, at their 90th percentile', () => {
    // Of the ordered values 191 to 220, nine tenths of the way: 191 + 0.9 * 29
    expect(of(record([...falling(220, 30), 300, 300])).commissioning).toEqual({
      kind: 'baseline',
      permeabilityLmhBar: expect.closeTo(217.1, 9),
      referenceC: 20,
      from: 'first 30 days',
      assumed: true,
      day: day(0),
    });
  });

  test('is assumed from the 30 days after the last recovery clean once they hold seven days', () => {
    const days = record([...falling(200, 60), null, ...falling(240, 7)]);
    expect(of(days, [{ kind: 'CIP', day: day(60) }]).commissioning).toMatchObject({ from: 'after last CIP', assumed: true, day: day(61) });
    expect(of(days.slice(0, -1), [{ kind: 'CIP', day: day(60) }]).commissioning).toMatchObject({ from: 'first 30 days', day: day(0) });
  });

  test('is not there below seven days', () => {
    expect(of(record([200, null, 199, 198, 197, 196, 195])).commissioning).toEqual({ kind: 'too-little-data', have: 6, need: 7 });
    expect(of([]).commissioning).toEqual({ kind: 'too-little-data', have: 0, need: 7 });
  });

  test('is not carried away by one wild day, and no later day raises it', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 29 }), fc.array(fc.integer({ min: 50, max: 900 }), { maxLength: 40 }), (wildDay, later) => {
        const steady = Array.from({ length: 30 }, (_, i) => 200 + (i % 3));
        const wild = steady.map((value, i) => (i === wildDay ? 900 : value));
        expect(of(record([...wild, ...later])).commissioning).toMatchObject({ permeabilityLmhBar: expect.closeTo(202, 6) });
      }),
      { numRuns: 30 },
    );
  });
});

describe('the baseline after the last recovery clean', () => {
  test('is the median of the first three days after it; its own day is not used', () => {
    const days = record([...falling(200, 30), 999, 230, 236, 228, 150, 150]);
    expect(of(days, [{ kind: 'CIP', day: day(30) }], commissioning).lastCip).toEqual({
      kind: 'baseline',
      permeabilityLmhBar: 230,
      referenceC: 20,
      from: 'last CIP',
      assumed: false,
      day: day(31),
    });
  });

  test('waits for a day with a value, and keeps the one before until then', () => {
    const cleans: CleanDay[] = [
      { kind: 'CIP', day: day(10) },
      { kind: 'CIP', day: day(29) },
    ];
    expect(of(record(falling(200, 30)), cleans).lastCip).toMatchObject({ from: 'last CIP', day: day(11) });
    expect(of(record([...falling(200, 30), 225]), cleans).lastCip).toMatchObject({ permeabilityLmhBar: 225, day: day(30) });
  });

  test('does not reach back over a week without values', () => {
    const days = record([...falling(200, 30), ...Array.from({ length: 8 }, () => null), 180]);
    expect(of(days, [{ kind: 'CIP', day: day(30) }]).lastCip).toMatchObject({ from: 'first 30 days' });
  });

  test('is that of commissioning as long as no recovery clean was made', () => {
    expect(of(record(falling(200, 30)), [{ kind: 'CEB', day: day(3) }], commissioning).lastCip).toMatchObject({ from: 'commissioning' });
  });
});

describe('the baseline after the last chemical clean', () => {
  test('is that of a maintenance clean, or of a recovery clean that came later or on the same day', () => {
    const days = record(falling(200, 30));
    const ceb: CleanDay = { kind: 'CEB', day: day(20) };
    expect(of(days, [{ kind: 'CIP', day: day(10) }, ceb]).lastCeb).toMatchObject({ from: 'last CEB', permeabilityLmhBar: 178, day: day(21) });
    expect(of(days, [ceb, { kind: 'CIP', day: day(24) }]).lastCeb).toMatchObject({ from: 'last CIP', permeabilityLmhBar: 174 });
    expect(of(days, [{ kind: 'CIP', day: day(20) }, ceb]).lastCeb).toMatchObject({ from: 'last CIP', permeabilityLmhBar: 178 });
  });

  test('works where one is made every day', () => {
    const cleans = Array.from({ length: 30 }, (_, n): CleanDay => ({ kind: 'CEB', day: day(n) }));
    expect(of(record(falling(200, 30)), cleans).lastCeb).toMatchObject({ from: 'last CEB', permeabilityLmhBar: 171, day: day(29) });
  });

  test('does not use the day of the recovery clean that follows', () => {
    const cleans: CleanDay[] = [
      { kind: 'CEB', day: day(8) },
      { kind: 'CIP', day: day(9) },
    ];
    expect(of(record(falling(200, 10)), cleans, commissioning).lastCeb).toMatchObject({ from: 'commissioning' });
  });
});
