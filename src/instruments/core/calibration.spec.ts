import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { SIGNALS, type SignalCode } from '../../shared/signals.js';
import { calibrationFaults } from './calibration-faults.js';
import { calibrationFigures } from './calibration-figures.js';
import { doubtfulTimes } from './doubtful-times.js';
import { FIGURES, figuresFed } from './figures-fed.js';

const point = (reference: number, asFound: number, asLeft: number | null = null) => ({ reference, asFound, asLeft });
const figuresOf = (...points: ReturnType<typeof point>[]) => calibrationFigures(points, 4);

// Arithmetic of the definition: reading less reference, against one tolerance.
describe('a calibration', () => {
  test('is judged by the worst point as found, and by the worst one as left', () => {
    expect(figuresOf(point(0, 1, 0.5), point(200, 206, 200), point(400, 397, 403))).toMatchObject({
      worstAsFound: 6,
      asFound: 'out of tolerance',
      worstAsLeft: 3,
      asLeft: 'in tolerance',
    });
  });

  test('keeps the sign of its worst error', () => expect(figuresOf(point(0, 1), point(400, 392))).toMatchObject({ worstAsFound: -8 }));

  test('leaves an instrument that nobody adjusted as it was found', () => {
    expect(figuresOf(point(0, 9))).toMatchObject({ worstAsLeft: null, asLeft: 'out of tolerance' });
    expect(figuresOf(point(0, 3))).toMatchObject({ worstAsLeft: null, asLeft: 'in tolerance' });
  });

  test('parts the error into zero and span', () => {
    expect(figuresOf(point(400, 406), point(0, 2))).toMatchObject({ zeroError: 2, spanError: 4 });
    expect(figuresOf(point(100, 102))).toMatchObject({ zeroError: 2, spanError: null });
  });

  test('takes an error as large as the tolerance as within it, however decimals are rounded', () => {
    expect(calibrationFigures([point(1.1, 1.4)], 0.3)).toMatchObject({ asFound: 'in tolerance' });
    expect(calibrationFigures([point(1.1, 1.41)], 0.3)).toMatchObject({ asFound: 'out of tolerance' });
  });

  test('without points says nothing', () => expect(calibrationFigures([], 4)).toEqual({ kind: 'no-points' }));

  test('in any order of its points says the same', () => {
    const points = fc.array(fc.record({ reference: fc.integer({ min: 0, max: 400 }), asFound: fc.integer({ min: 0, max: 400 }), asLeft: fc.constant(null) }), {
      minLength: 1,
      maxLength: 6,
    });
    fc.assert(
      fc.property(points, (given) => {
        const [one, other] = [calibrationFigures(given, 4), calibrationFigures([...given].reverse(), 4)];
        expect('asFound' in one && one.asFound).toBe('asFound' in other && other.asFound);
      }),
      { numRuns: 50 },
    );
  });
});

describe('the readings of an instrument', () => {
  const at = (day: string) => new Date(`${day}T08:00:00Z`);
  const check = (id: string, day: string, found: boolean, left = true) => ({ id, at: at(day), foundInTolerance: found, leftInTolerance: left });
  const days = (...args: Parameters<typeof doubtfulTimes>) =>
    doubtfulTimes(...args).map(({ checkId, from, to }) => [checkId, from?.toISOString().slice(0, 10) ?? null, to?.toISOString().slice(0, 10) ?? null]);

  test('are trusted as long as every calibration finds it in tolerance', () => expect(days([check('a', '2026-03-01', true)], [])).toEqual([]));

  test('are doubtful since it was last left in tolerance', () => {
    expect(days([check('a', '2026-03-01', true), check('b', '2026-09-01', false)], [])).toEqual([['b', '2026-03-01', '2026-09-01']]);
    expect(days([check('a', '2026-03-01', false), check('b', '2026-09-01', false)], [])).toEqual([
      ['a', null, '2026-03-01'],
      ['b', '2026-03-01', '2026-09-01'],
    ]);
  });

  test('are doubtful since the instrument was fitted, where it was not calibrated after that', () => {
    expect(days([check('a', '2026-03-01', true), check('b', '2026-09-01', false)], [at('2026-01-05'), at('2026-06-01'), at('2026-10-01')])).toEqual([
      ['b', '2026-06-01', '2026-09-01'],
    ]);
  });

  test('stay doubtful until the next calibration where it was left out of tolerance', () => {
    expect(days([check('a', '2026-03-01', true), check('b', '2026-06-01', false, false)], [])).toEqual([['b', '2026-03-01', null]]);
    expect(days([check('a', '2026-03-01', true), check('b', '2026-06-01', false, false), check('c', '2026-09-01', false)], [])).toEqual([
      ['b', '2026-03-01', '2026-09-01'],
      ['c', '2026-03-01', '2026-09-01'],
    ]);
    expect(days([check('a', '2026-03-01', true, false)], [])).toEqual([['a', '2026-03-01', null]]);
  });

  test('are judged anew when a calibration between two others is entered late', () => {
    const known = [check('c', '2026-09-01', false), check('a', '2026-03-01', true)];
    expect(days([...known, check('b', '2026-08-01', true)], [])).toEqual([['c', '2026-08-01', '2026-09-01']]);
  });
});

describe('what an instrument feeds', () => {
  const pressures = { scheme: 'dead-end', tmpFrom: 'pressures' } as const;

  test('goes by how the skid gets its transmembrane pressure', () => {
    expect(figuresFed('filtrate_pressure', pressures)).toContain('permeability');
    expect(figuresFed('concentrate_pressure', pressures)).toEqual([]);
    expect(figuresFed('concentrate_pressure', { ...pressures, scheme: 'cross-flow' })).toContain('permeability');
    expect(figuresFed('tmp', pressures)).toEqual([]);
    expect(figuresFed('tmp', { ...pressures, tmpFrom: 'measured' })).toContain('transmembrane pressure');
    expect(figuresFed('feed_pressure', { scheme: null, tmpFrom: null })).toContain('permeability');
  });

  test('is at least one figure for whatever condition is made from, and none for the rest', () => {
    const fed = (Object.keys(SIGNALS) as SignalCode[]).flatMap((signal) => figuresFed(signal, pressures));
    expect([...new Set(fed)].sort()).toEqual([...FIGURES].sort());
    expect(figuresFed('chlorine', pressures)).toEqual([]);
  });
});

describe('a calibration that cannot be so', () => {
  const good = { signal: 'feed_pressure', unit: 'bar', tolerance: 0.04, points: [point(4, 4.1)], day: '2026-11-20', nextOn: '2027-11-20' } as const;

  test('is none of these', () => expect(calibrationFaults(good)).toEqual([]));

  test.each([
    ['no signal', { signal: null }, 'signal', /say which signal/],
    ['a counter', { signal: 'backwash_count', unit: '1' }, 'signal', /counted or switched/],
    ['a unit of something else', { unit: 'L/s' }, 'unit', /L\/s is no unit of feed pressure.*kPa/],
    ['no tolerance', { tolerance: 0 }, 'tolerance', /0 is no tolerance/],
    ['no points', { points: [] }, 'points', /1 to 20 points, not 0/],
    ['a reference in another unit', { points: [point(4, 4), point(400, 401)] }, 'points/1/reference', /400 bar is not possible/],
    ['a next date in the past', { nextOn: '2026-11-20' }, 'nextOn', /not after the calibration of 2026-11-20/],
  ] as const)('names the field: %s', (_, about, field, message) => {
    const [fault, ...others] = calibrationFaults({ ...good, ...about });
    expect(fault?.field).toBe(field);
    expect(fault?.message).toMatch(message);
    expect(others).toEqual([]);
  });
});
