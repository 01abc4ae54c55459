import { describe, expect, test } from '@jest/globals';
import { loadBetweenReadings } from './hand-load.js';

const reading = (at: string, values: Partial<{ totalM3: number; runHours: number; flowM3h: number }>) => ({
  at: new Date(at),
  totalM3: values.totalM3 ?? null,
  runHours: values.runHours ?? null,
  flowM3h: values.flowM3h ?? null,
});

describe('the water filtered between two readings by hand', () => {
  test('is the difference of the totaliser, shared out over the days', () => {
    const days = loadBetweenReadings([reading('2026-03-01T12:00:00Z', { totalM3: 1000 }), reading('2026-03-03T12:00:00Z', { totalM3: 1480 })], 'Etc/UTC');
    expect(days.map(({ day, filtrateM3 }) => [day, filtrateM3])).toEqual([
      ['2026-03-01', 120],
      ['2026-03-02', 240],
      ['2026-03-03', 120],
    ]);
    expect(days.every(({ estimated }) => !estimated)).toBe(true);
  });

  test('comes from hours times flow, marked as estimated, where no totaliser was read or it went backwards', () => {
    const hours = [reading('2026-03-01T00:00:00Z', { runHours: 100, flowM3h: 20 }), reading('2026-03-02T00:00:00Z', { runHours: 110, flowM3h: 22 })];
    expect(loadBetweenReadings(hours, 'Etc/UTC')).toEqual([{ day: '2026-03-01', filtrateM3: 210, filtrationHours: 10, estimated: true }]);
    const rolled = [
      reading('2026-03-01T00:00:00Z', { totalM3: 999_900, runHours: 100, flowM3h: 20 }),
      reading('2026-03-02T00:00:00Z', { totalM3: 110, runHours: 110, flowM3h: 20 }),
    ];
    expect(loadBetweenReadings(rolled, 'Etc/UTC')[0]).toMatchObject({ filtrateM3: 200, estimated: true });
  });

  test('is not guessed where neither is known, or the hours exceed the clock', () => {
    expect(loadBetweenReadings([reading('2026-03-01T00:00:00Z', {}), reading('2026-03-08T00:00:00Z', { flowM3h: 20 })], 'Etc/UTC')).toEqual([]);
    const impossible = [reading('2026-03-01T00:00:00Z', { runHours: 100, flowM3h: 20 }), reading('2026-03-02T00:00:00Z', { runHours: 150, flowM3h: 20 })];
    expect(loadBetweenReadings(impossible, 'Etc/UTC')).toEqual([]);
  });

  test('adds up to the totaliser whatever the zone and the order of the readings', () => {
    const readings = [
      reading('2026-10-30T07:00:00Z', { totalM3: 700 }),
      reading('2026-10-20T07:00:00Z', { totalM3: 0 }),
      reading('2026-10-26T09:30:00Z', { totalM3: 300 }),
    ];
    const sum = loadBetweenReadings(readings, 'Europe/Madrid').reduce((total, { filtrateM3 }) => total + filtrateM3, 0);
    expect(sum).toBeCloseTo(700, 9);
  });
});
