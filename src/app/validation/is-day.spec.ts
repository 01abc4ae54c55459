import { describe, expect, test } from '@jest/globals';
import { validateSync } from 'class-validator';
import { IsDay, IsMoment, isDay } from './is-day.js';

class Dated {
  @IsDay()
  on: unknown;

  @IsMoment()
  at: unknown;

  constructor(on: unknown, at: unknown) {
    this.on = on;
    this.at = at;
  }
}

const faultsOf = (on: unknown, at: unknown) => validateSync(new Dated(on, at)).map((fault) => fault.property);

describe('a day', () => {
  test.each(['2026-11-30', '2024-02-29', '1900-01-01'])('%s is one', (day) => expect(isDay(day)).toBe(true));
  test.each([
    '2026-02-30',
    '2025-02-29',
    '2026-13-01',
    '0000-01-01',
    '0206-11-30',
    '9999-12-31',
    '2026-00-10',
    '2026-1-1',
    '30.11.2026',
    '2026-11-30T00:00:00Z',
    '',
    20261130,
    null,
  ])('%s is none', (day) => expect(isDay(day)).toBe(false));
});

describe('a moment', () => {
  test.each(['2026-11-30T14:05Z', '2026-11-30T14:05:09Z', '2026-11-30T14:05:09.123Z', '2026-11-30T15:05:00+01:00', '2026-11-30T00:00:00-09:30'])(
    '%s is one',
    (at) => expect(faultsOf('2026-11-30', at)).toEqual([]),
  );
  test.each(['2026-11-30T14:05:00', '2026-11-30', '2026-02-30T14:05:00Z', '2026-11-30T24:00:00Z', '2026-11-30T14:60:00Z', '2026-11-30 14:05:00Z', 0, null])(
    '%s is none',
    (at) => expect(faultsOf('2026-11-30', at)).toEqual(['at']),
  );
});
