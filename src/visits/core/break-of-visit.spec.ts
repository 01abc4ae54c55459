import { describe, expect, test } from '@jest/globals';
import { breakInVisit, isRoomForBreak } from './break-of-visit.js';

const NOON = { minutes: 30, from: '11:30', until: '14:00' };

describe('the break within a visit', () => {
  test('is the longest of those who go and are there all the time for it', () => {
    expect(breakInVisit({ startTime: '09:00', minutes: 360 }, [NOON, { ...NOON, minutes: 45 }])).toBe(45);
  });

  test('is none where it can be had before or after, and in a visit that goes on past midnight', () => {
    expect(breakInVisit({ startTime: '08:00', minutes: 330 }, [NOON])).toBe(0);
    expect(breakInVisit({ startTime: '08:00', minutes: 331 }, [NOON])).toBe(30);
    expect(breakInVisit({ startTime: '09:00', minutes: 1000 }, [NOON])).toBe(0);
    expect(breakInVisit({ startTime: '09:00', minutes: 360 }, [])).toBe(0);
  });
});

describe('room for a break', () => {
  test('is within long work, or between two visits that leave it after the way', () => {
    expect(isRoomForBreak(NOON, [{ startTime: '09:00', minutes: 360, way: 0 }])).toBe(true);
    const day = (second: string) => [
      { startTime: '09:00', minutes: 180, way: 0 },
      { startTime: second, minutes: 180, way: 20 },
    ];
    expect(isRoomForBreak({ ...NOON, until: '12:50' }, day('12:50'))).toBe(true);
    expect(isRoomForBreak({ ...NOON, until: '12:50' }, day('12:40'))).toBe(false);
  });
});
