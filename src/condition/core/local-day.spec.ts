import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { localDays } from './local-day.js';

const at = (text: string) => new Date(text).getTime();
const hours = (timeZone: string, text: string) => {
  const { fromMs, toMs } = localDays(timeZone)(at(text));
  return (toMs - fromMs) / 3_600_000;
};

describe('the calendar day at a site', () => {
  test('begins at midnight there', () => {
    const dayOf = localDays('Asia/Kolkata');
    expect(dayOf(at('2025-01-01T18:29:59Z')).day).toBe('2025-01-01');
    expect(dayOf(at('2025-01-01T18:30:00Z')).day).toBe('2025-01-02');
  });

  // Clock changes as published for these zones: central Europe on the last Sundays of March and October, Lord Howe Island by half an hour.
  test('has 23 or 25 hours when the clock changes, and half an hour less or more on Lord Howe Island', () => {
    expect(hours('Europe/Berlin', '2025-03-30T12:00:00Z')).toBe(23);
    expect(hours('Europe/Berlin', '2025-10-26T12:00:00Z')).toBe(25);
    expect(hours('Europe/Berlin', '2025-07-01T12:00:00Z')).toBe(24);
    expect(hours('Australia/Lord_Howe', '2025-10-05T05:00:00Z')).toBe(23.5);
    expect(hours('Australia/Lord_Howe', '2025-04-06T05:00:00Z')).toBe(24.5);
  });

  test('begins at one where a zone skips midnight', () => {
    // Chile put its clocks from 24:00 to 01:00 on 2024-09-07/08.
    const day = localDays('America/Santiago')(at('2024-09-08T12:00:00Z'));
    expect(day.day).toBe('2024-09-08');
    expect(new Date(day.fromMs).toISOString()).toBe('2024-09-08T04:00:00.000Z');
    expect(localDays('America/Santiago')(at('2024-09-08T03:59:59Z')).day).toBe('2024-09-07');
    expect(localDays('America/Santiago')(at('2024-09-08T03:59:59Z')).toMs).toBe(day.fromMs);
  });

  test('holds its instant, is the same whatever was asked before, and joins the next day without a gap', () => {
    const instant = fc.integer({ min: at('2020-01-01T00:00:00Z'), max: at('2030-01-01T00:00:00Z') });
    const zone = fc.constantFrom('UTC', 'Europe/Berlin', 'America/Santiago', 'Australia/Lord_Howe', 'Asia/Kolkata', 'Pacific/Auckland', 'Africa/Cairo');
    fc.assert(
      fc.property(zone, instant, instant, (timeZone, one, other) => {
        const dayOf = localDays(timeZone);
        dayOf(one);
        const day = dayOf(other);
        expect(day).toEqual(localDays(timeZone)(other));
        expect(day.fromMs <= other && other < day.toMs).toBe(true);
        expect(dayOf(day.toMs).fromMs).toBe(day.toMs);
      }),
      { numRuns: 60 },
    );
  });
});
