import { describe, expect, test } from '@jest/globals';
import { dayPlus } from '../../../shared/day.js';
import { recordFigures, wilson } from './record-figures.js';
import { type Score, scoreOf } from './score.js';
import { type ForecastLife, truthOf } from './truth.js';

const ORIGIN = '2026-01-01';
const values = (...list: number[]) => list.map((value, at) => ({ day: dayPlus(ORIGIN, at + 1), value }));
const life = (change: Partial<ForecastLife>): ForecastLife => ({
  limit: { value: 100, met: 'at or above' },
  originDay: ORIGIN,
  endedOn: null,
  spent: null,
  after: [],
  ...change,
});

describe('what became of a forecast', () => {
  test('is the first day on which the middle of three values meets the limit', () => {
    expect(truthOf(life({ after: values(80, 130, 85, 99, 101, 102, 103) }))).toEqual({ kind: 'met', on: '2026-01-07' });
  });

  test('is met from above where the limit is a least value', () => {
    expect(truthOf(life({ limit: { value: 50, met: 'at or below' }, after: values(60, 49, 48, 47) }))).toEqual({ kind: 'met', on: '2026-01-04' });
  });

  test('is an early change where the part went well before its limit', () => {
    expect(truthOf(life({ after: values(60, 62, 64), endedOn: '2026-01-05' }))).toEqual({ kind: 'ended before', on: '2026-01-05' });
  });

  test('is the day of the change where the part had all but met its limit', () => {
    expect(truthOf(life({ after: values(94, 96, 97), endedOn: '2026-01-05' }))).toEqual({ kind: 'met', on: '2026-01-05' });
  });

  test('is the day of the change where more than its values says that it had lived its life, and an early change where that says it had not', () => {
    expect(truthOf(life({ after: values(60, 62), endedOn: '2026-01-05', spent: true }))).toEqual({ kind: 'met', on: '2026-01-05' });
    expect(truthOf(life({ after: values(94, 96, 97), endedOn: '2026-01-05', spent: false }))).toEqual({ kind: 'ended before', on: '2026-01-05' });
  });

  test('looks at no value from before the origin or after the change', () => {
    const after = [
      { day: '2025-12-31', value: 200 },
      ...values(60, 62),
      { day: '2026-01-09', value: 200 },
      { day: '2026-01-10', value: 200 },
      { day: '2026-01-11', value: 200 },
    ];
    expect(truthOf(life({ after, endedOn: '2026-01-05' }))).toEqual({ kind: 'ended before', on: '2026-01-05' });
  });

  test('stays open while nothing has come, with or without values', () => {
    expect(truthOf(life({ after: values(60, 61) }))).toEqual({ kind: 'open', until: '2026-01-03' });
    expect(truthOf(life({}))).toEqual({ kind: 'open', until: ORIGIN });
  });
});

describe('the score of a forecast', () => {
  const forecast = { originDay: ORIGIN, p10Days: 8.4, p50Days: 12, p90Days: 20.2 };

  test.each([
    ['2026-01-09', true, 4],
    ['2026-01-08', false, 5],
    ['2026-01-22', true, -9],
    ['2026-01-23', false, -10],
  ])('for a limit met on %s: inside %s, %d days late', (on, inside, errorDays) => {
    expect(scoreOf(forecast, { kind: 'met', on })).toMatchObject({ kind: 'scored', inside, errorDays });
  });

  test('has no error in days where the forecast was beyond its horizon, and is outside where P10 was', () => {
    const beyond = { originDay: ORIGIN, p10Days: null, p50Days: null, p90Days: null };
    expect(scoreOf(beyond, { kind: 'met', on: '2026-02-01' })).toEqual({ kind: 'scored', truthDays: 31, errorDays: null, inside: false });
    expect(scoreOf({ ...beyond, p10Days: 20 }, { kind: 'met', on: '2026-02-01' })).toMatchObject({ inside: true });
  });

  test('of an early change says only whether the interval had passed by then', () => {
    expect(scoreOf(forecast, { kind: 'ended before', on: '2026-01-10' })).toEqual({ kind: 'early change', lastedDays: 9, saidTooEarly: false });
    expect(scoreOf(forecast, { kind: 'ended before', on: '2026-02-10' })).toMatchObject({ saidTooEarly: true });
    expect(scoreOf(forecast, { kind: 'open', until: '2026-02-10' })).toMatchObject({ kind: 'open', saidTooEarly: true });
  });
});

describe('the figures of a record', () => {
  const scored = (errorDays: number | null, inside: boolean, truthDays = 10): Score => ({ kind: 'scored', truthDays, errorDays, inside });

  test('say nothing where nothing is scored', () => {
    expect(recordFigures([])).toMatchObject({ scored: 0, lives: 0, medianErrorDays: null, insideRange: null });
  });

  test('count early changes apart and take no error from them', () => {
    const figures = recordFigures([
      { life: 'a', score: scored(2, true) },
      { life: 'a', score: scored(-4, false) },
      { life: 'b', score: scored(1, true) },
      { life: 'c', score: { kind: 'early change', lastedDays: 3, saidTooEarly: true } },
      { life: 'd', score: { kind: 'open', lastedDays: 3, saidTooEarly: false } },
    ]);
    expect(figures).toMatchObject({ scored: 3, lives: 2, earlyChanges: 1, open: 1, medianErrorDays: 2, saidLater: 2, inside: 2, saidTooEarly: 1 });
  });

  test('have no median where the middle forecast was beyond its horizon', () => {
    const figures = recordFigures([{ life: 'a', score: scored(null, false) }]);
    expect(figures).toMatchObject({ scored: 1, medianErrorDays: null, saidLater: 1 });
  });

  /** Newcombe 1998, Statistics in Medicine 17, table I, method 3: 81 of 263, and 15 of 148 (values from memory). */
  test.each([
    [81 / 263, 263, 0.2553, 0.3662],
    [15 / 148, 148, 0.0624, 0.1605],
    [0, 20, 0, 0.1611],
    [1 / 29, 29, 0.0061, 0.1718],
  ])('give the range that is published for %d of %d', (share, count, low, high) => {
    const [from, to] = wilson(share, count);
    expect(from).toBeCloseTo(low, 4);
    expect(to).toBeCloseTo(high, 4);
  });
});
