import { describe, expect, it } from '@jest/globals';
import { addDays, fromLocalField, siteToday, toLocalField } from './site-time.js';

describe('time at the site', () => {
  it('shows a moment as the clocks at the site do, whatever zone the device is in', () => {
    expect(toLocalField(Date.parse('2026-07-01T10:30:00Z'), 'Europe/Madrid')).toBe('2026-07-01T12:30');
    expect(toLocalField(Date.parse('2026-07-01T10:30:00Z'), 'America/Denver')).toBe('2026-07-01T04:30');
  });

  it('finds the moment again', () => {
    for (const zone of ['UTC', 'Europe/Madrid', 'Asia/Kolkata', 'Pacific/Chatham']) {
      const at = Date.parse('2026-02-03T04:05:00Z');
      expect(fromLocalField(toLocalField(at, zone), zone)?.getTime()).toBe(at);
    }
  });

  it('takes the first of an hour that comes twice when summer time ends', () => {
    expect(fromLocalField('2026-10-25T02:30', 'Europe/Berlin')?.toISOString()).toBe('2026-10-25T00:30:00.000Z');
  });

  it('reads an hour that summer time skips as the hour after', () => {
    expect(fromLocalField('2026-03-29T02:30', 'Europe/Berlin')?.toISOString()).toBe('2026-03-29T01:30:00.000Z');
  });

  it('gives nothing for what is no date and time', () => {
    expect(fromLocalField('', 'UTC')).toBeUndefined();
    expect(fromLocalField('2026-13-40T10:00', 'UTC')).toBeUndefined();
  });

  it('knows the date at the site and counts on from it', () => {
    expect(siteToday(Date.parse('2026-12-31T23:30:00Z'), 'Asia/Tokyo')).toBe('2027-01-01');
    expect(addDays('2026-12-30', 3)).toBe('2027-01-02');
  });
});
