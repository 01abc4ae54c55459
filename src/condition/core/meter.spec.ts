import { existsSync, readFileSync } from 'node:fs';
import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { averageDailyUse } from './daily-use.js';
import { lifeByMeter, type MeterEvent, type MeterKind } from './meter.js';

const hourMeter: MeterKind = { modulus: 100_000, mostPerHour: 1 };
const now = new Date('2026-01-01T00:00:00Z');
const at = (text: string) => new Date(text.length === 10 ? `${text}T00:00:00Z` : `${text}:00Z`);
const read = (text: string, value: number): MeterEvent => ({ kind: 'reading', at: at(text), value });
const exchange = (text: string, oldFinal: number | null, newInitial: number): MeterEvent => ({ kind: 'exchange', at: at(text), oldFinal, newInitial });

const lives = (events: MeterEvent[], meter = hourMeter) => lifeByMeter(Object.freeze(events), meter, now).points.map(({ life }) => life);
const reasons = (events: MeterEvent[], meter = hourMeter) => lifeByMeter(events, meter, now).rejected.map(({ reason }) => reason);

// Worked by another program from the same rules; `average` is the total over the days of the record.
const worked = [
  {
    name: '4-digit rollover at 10000',
    modulus: 10_000,
    events: [
      ['2025-01-01', 9820],
      ['2025-01-11', 9990],
      ['2025-01-21', 170],
    ],
    lives: [0, 170, 350],
    average: 17.5,
  },
  {
    name: 'meter replaced: life hours continue',
    modulus: 100_000,
    events: [
      ['2025-01-01', 12_000],
      ['2025-02-01', [12_480, 0]],
      ['2025-03-01', 430],
    ],
    lives: [0, 480, 910],
    average: 15.423729,
  },
] as const;

const toEvent = ([day, value]: readonly [string, number | readonly [number, number]]) =>
  typeof value === 'number' ? read(day, value) : exchange(day, value[0], value[1]);

describe('life by a counter', () => {
  test.each(worked)('$name', ({ modulus, events, lives: expected, average }) => {
    const { points, rejected } = lifeByMeter(events.map(toEvent), { modulus, mostPerHour: 1 }, now);
    expect(points.map(({ life }) => life)).toEqual(expected);
    expect(rejected).toEqual([]);
    expect(averageDailyUse(points, { windowDays: 90, leastDays: 7, mostPerDay: 24 })).toMatchObject({ perDay: expect.closeTo(average, 6) });
  });

  test('refuses more run hours than the clock allows, and goes on from the last good reading', () => {
    const events = [read('2025-03-01T08:00', 5000), read('2025-03-02T08:00', 5030), read('2025-03-03T08:00', 5048)];
    expect(reasons(events)).toEqual(['more than the clock allows']);
    expect(lives(events)).toEqual([0, 48]);
    expect(lives([read('2025-03-01T08:00', 5000), read('2025-03-02T08:00', 5024)])).toEqual([0, 24]);
  });

  test('allows one step of the display over the clock: 25 whole hours may be read after 24.2', () => {
    const events = [read('2025-03-01T08:00', 5000), read('2025-03-02T08:12', 5025)];
    expect(reasons(events)).toEqual(['more than the clock allows']);
    expect(reasons(events, { ...hourMeter, step: 1 })).toEqual([]);
  });

  test('refuses a lower reading without an exchange, since 9980 hours do not fit into 24', () => {
    expect(reasons([read('2025-03-01T08:00', 5000), read('2025-03-02T08:00', 4980)], { modulus: 10_000, mostPerHour: 1 })).toEqual([
      'lower reading without exchange',
    ]);
    expect(reasons([read('2025-03-01', 9990), read('2025-04-01', 170)], { modulus: null, mostPerHour: 1 })).toEqual(['lower reading without exchange']);
  });

  test('refuses a second reading of one moment and one of the future', () => {
    const events = [read('2025-03-01', 5000), read('2025-03-01', 5001), read('2026-01-02', 5002)];
    expect(reasons(events)).toEqual(['duplicate time', 'future time']);
    expect(lives(events)).toEqual([0]);
    expect(lives([exchange('2026-01-02', 1, 0)])).toEqual([]);
  });

  test('keeps an exchange whose old value is unknown or impossible, and counts nothing for that time', () => {
    const unknown = [read('2025-01-01', 12_000), exchange('2025-02-01', null, 50), read('2025-03-01', 430)];
    expect(lives(unknown)).toEqual([0, 0, 380]);
    const impossible = [read('2025-01-01', 12_000), exchange('2025-01-02', 12_480, 0), read('2025-03-01', 430)];
    expect(lives(impossible)).toEqual([0, 0, 430]);
    expect(reasons(impossible)).toEqual(['more than the clock allows']);
  });

  test('takes a reading and an exchange of one moment as the last look at the old counter', () => {
    expect(lives([exchange('2025-02-01', 12_480, 0), read('2025-02-01', 12_480), read('2025-01-01', 12_000)])).toEqual([0, 480, 480]);
  });

  test('counts starts and strokes, with or without a limit by the clock', () => {
    const strokes = [read('2025-01-01', 9_000), read('2025-01-02', 200)];
    expect(lives(strokes, { modulus: 10_000, mostPerHour: 60 })).toEqual([0, 1200]);
    expect(reasons(strokes, { modulus: 10_000, mostPerHour: 20 })).toEqual(['lower reading without exchange']);
    expect(lives(strokes, { modulus: 10_000, mostPerHour: null })).toEqual([0, 1200]);
    expect(reasons([read('2025-01-01', 5_000), read('2025-01-02', 4_000)], { modulus: 10_000, mostPerHour: null })).toEqual(['lower reading without exchange']);
  });

  test('does not depend on the display: a meter that rolls over or is exchanged tells the same life', () => {
    const days = fc.array(fc.double({ min: 0, max: 24, noNaN: true }), { minLength: 1, maxLength: 30 });
    fc.assert(
      fc.property(days, fc.integer({ min: 0, max: 999 }), fc.nat(29), (hoursByDay, begin, exchangedOn) => {
        const day = (n: number) => new Date(Date.UTC(2025, 0, 1 + n));
        let total = begin;
        let display = begin;
        const events: MeterEvent[] = [{ kind: 'reading', at: day(0), value: begin }];
        for (const [n, hours] of hoursByDay.entries()) {
          total += hours;
          display = (display + hours) % 1000;
          events.push(
            n === exchangedOn ? { kind: 'exchange', at: day(n + 1), oldFinal: display, newInitial: 77 } : { kind: 'reading', at: day(n + 1), value: display },
          );
          if (n === exchangedOn) display = 77;
        }
        const { points, rejected } = lifeByMeter(events, { modulus: 1000, mostPerHour: 1, step: 1e-6 }, now);
        expect(rejected).toEqual([]);
        expect(points.at(-1)?.life).toBeCloseTo(total - begin, 6);
      }),
      { numRuns: 50 },
    );
  });
});

const vectorFile = new URL('../../../../shared/data/meter_pm_vectors.json', import.meta.url);
const withVectors = existsSync(vectorFile) ? test : test.skip;
if (!existsSync(vectorFile)) console.warn('skipped: ../shared/data/meter_pm_vectors.json is not here');

withVectors('every worked meter of the shared test vectors', () => {
  const vectors = JSON.parse(readFileSync(vectorFile, 'utf8')) as {
    inputs: { events?: [string, 'reading' | 'replace', number | [number, number]][]; modulus: number };
    expect: { series: [string, number][]; adu: number };
  }[];
  const meters = vectors.filter(({ inputs }) => inputs.events);
  expect(meters.length).toBeGreaterThanOrEqual(2);
  for (const { inputs, expect: expected } of meters) {
    const events = (inputs.events ?? []).map(([day, , value]) => toEvent([day, value]));
    const { points, rejected } = lifeByMeter(events, { modulus: inputs.modulus, mostPerHour: 1 }, now);
    expect(points.map((point) => [point.at.toISOString().slice(0, 10), point.life])).toEqual(expected.series);
    expect(rejected).toEqual([]);
    expect(averageDailyUse(points, { windowDays: 90, leastDays: 7, mostPerDay: 24 })).toMatchObject({ perDay: expect.closeTo(expected.adu, 5) });
  }
});
