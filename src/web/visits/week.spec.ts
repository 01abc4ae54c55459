import { describe, expect, test } from '@jest/globals';
import { daysOfWeek, mondayOf, timeAfter, weekAsked } from './week.js';

describe('a week', () => {
  test('begins on Monday, also over the end of a month and of a year', () => {
    expect(mondayOf('2026-11-25')).toBe('2026-11-23');
    expect(mondayOf('2026-11-23')).toBe('2026-11-23');
    expect(mondayOf('2026-11-29')).toBe('2026-11-23');
    expect(mondayOf('2027-01-02')).toBe('2026-12-28');
  });

  test('has seven days', () => {
    expect(daysOfWeek('2026-12-28')).toEqual(['2026-12-28', '2026-12-29', '2026-12-30', '2026-12-31', '2027-01-01', '2027-01-02', '2027-01-03']);
  });

  test('is this one where the address names none that there is', () => {
    expect(weekAsked('2026-12-03', '2026-11-25')).toBe('2026-11-30');
    for (const asked of [undefined, '', 'next', '2026-02-31', '2026-13-01']) expect(weekAsked(asked, '2026-11-25')).toBe('2026-11-23');
  });
});

describe('when a visit ends', () => {
  test('is read from its start and its minutes', () => {
    expect(timeAfter('08:00', 150)).toBe('10:30');
    expect(timeAfter('23:30', 45)).toBe('00:15');
  });
});
