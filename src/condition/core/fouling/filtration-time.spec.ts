import { describe, expect, test } from '@jest/globals';
import { temperatureCorrection } from '../temperature-correction.js';
import { filtrationTimes, type TimedRun } from './filtration-time.js';

const BEGIN = Date.UTC(2026, 0, 1);

/** Runs of forty minutes with a clean of five after each, at 30 m3/h and 20 degC from 40 kPa, whose pressure rises by so much a minute. */
const runs = (days: number, risePerMinute: (day: number) => number, change: Partial<TimedRun> = {}): TimedRun[] =>
  Array.from({ length: days * 32 }, (_, at) => {
    const flowM3h = change.flowM3h ?? 30;
    const rise = risePerMinute(Math.floor(at / 32)) * ((flowM3h ?? 0) / 30) ** 2;
    return {
      startedAt: new Date(BEGIN + at * 45 * 60_000),
      filtrationMinutes: 40,
      flowM3h,
      tmpStartKpa: 40,
      tmpEndKpa: 40 + 40 * rise,
      temperatureC: 20,
      ...change,
    };
  });
const timesOf = (list: readonly TimedRun[], cleanM3: number | null = null) => {
  const found = filtrationTimes(list, cleanM3);
  if (found.kind !== 'times') throw new Error(`${found.have} of ${found.need}`);
  return found;
};

describe('how long to filter between hydraulic cleans', () => {
  test('reckons runs, filtrate, net filtrate, recovery and the last pressure of each time', () => {
    const { options, downMinutes, wished } = timesOf(
      runs(20, () => 0.2),
      1.5,
    );
    expect(downMinutes).toBe(5);
    expect(wished).toBeNull();
    const forty = options.find(({ minutes }) => minutes === 40);
    // By hand: 1440 / 45 = 32 runs of 20 m3, less 32 x 1.5 m3; 40 + 40 x 0.2 kPa.
    expect(forty).toEqual({
      minutes: 40,
      runsPerDay: 32,
      filtrateM3PerDay: 640,
      netM3PerDay: 592,
      recovery: expect.closeTo(0.925, 9),
      endKpa: expect.closeTo(48, 9),
    });
    expect(options.map(({ minutes }) => minutes)).toEqual([20, 30, 40, 50, 60]);
  });

  test('longer runs give more water and end at a higher pressure', () => {
    const { options } = timesOf(
      runs(20, () => 0.2),
      1.5,
    );
    for (const what of ['filtrateM3PerDay', 'netM3PerDay', 'recovery', 'endKpa'] as const) {
      const values = options.map((option) => option[what] ?? Number.NaN);
      expect(values).toEqual(values.toSorted((one, other) => one - other));
    }
  });

  test('wishes for runs as much shorter as the pressure rises faster than usual, and not under twenty minutes', () => {
    expect(timesOf(runs(20, (day) => (day < 16 ? 0.2 : 0.32))).wished).toBe(25);
    expect(timesOf(runs(20, (day) => (day < 16 ? 0.2 : 2))).wished).toBe(20);
  });

  test('takes neither more flow nor colder water for worse water', () => {
    const before = runs(16, () => 0.2);
    const then = runs(20, () => 0.2, { flowM3h: 36 }).slice(16 * 32);
    expect(timesOf([...before, ...then]).wished).toBeNull();
    const cold = runs(20, () => 0.2 * temperatureCorrection(4, 20), { temperatureC: 4 }).slice(16 * 32);
    expect(timesOf([...before, ...cold]).wished).toBeNull();
  });

  test('says no net filtrate where the volume of a clean is not known', () => {
    expect(timesOf(runs(20, () => 0.2)).options[0]).toMatchObject({ netM3PerDay: null, recovery: null });
  });

  test('asks for runs with pressures at their start and end', () => {
    expect(
      filtrationTimes(
        runs(20, () => 0.2, { tmpEndKpa: null }),
        null,
      ),
    ).toEqual({ kind: 'too-little-data', have: 0, need: 20 });
    expect(
      filtrationTimes(
        runs(4, () => 0.2),
        null,
      ),
    ).toMatchObject({ kind: 'too-little-data', need: 100 });
  });
});
