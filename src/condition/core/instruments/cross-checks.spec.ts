import { describe, expect, test } from '@jest/globals';
import { crossChecks } from './cross-checks.js';

type Run = Parameters<typeof crossChecks>[0][number];
const START = new Date('2026-01-01T00:00:00Z').getTime();

/** Half-hour runs in which everything moves a little and everything fits. */
const runs = (count: number, change: (run: Run, at: number) => Partial<Run> = () => ({})): Run[] =>
  Array.from({ length: count }, (_, at) => {
    const flowM3h = 36 + Math.sin(at);
    const tmpKpa = 40 + Math.sin(at / 3);
    const run: Run = {
      startedAt: new Date(START + at * 3_600_000),
      filtrationMinutes: 30,
      flowM3h,
      filtrateM3: flowM3h / 2,
      feedKpa: 140 + tmpKpa,
      filtrateKpa: 140,
      tmpKpa,
      temperatureC: 12 + Math.sin(at / 20),
      cartridgeDpKpa: 30 + at / 10,
    };
    return { ...run, filtrateKpa: 140 + Math.cos(at), feedKpa: 140 + Math.cos(at) + tmpKpa, ...change(run, at) };
  });
const about = (list: readonly Run[]) => crossChecks(list).map(({ about, signals }) => [about, signals[0]]);

describe('instruments held against each other', () => {
  test('are not doubted where they agree, or where there is nothing to hold them against', () => {
    expect(crossChecks(runs(300))).toEqual([]);
    expect(crossChecks(runs(300, () => ({ filtrateM3: null, tmpKpa: null })))).toEqual([]);
    expect(crossChecks(runs(5, () => ({ temperatureC: 80 })))).toEqual([]);
  });

  test('are stuck where one stands still while others move, since its first equal value', () => {
    const [doubt, ...rest] = crossChecks(runs(60, (_, at) => (at >= 30 ? { temperatureC: 12.5 } : {})));
    expect(rest).toEqual([]);
    expect(doubt).toMatchObject({
      about: 'stuck',
      signals: ['temperature'],
      since: new Date(START + 30 * 3_600_000),
      makesDoubtful: ['permeability', 'cartridge pressure drop'],
    });
    expect(doubt?.text).toContain('12.5 degC in each of the last 30 runs');
  });

  test('are not stuck where the whole plant stands still', () => {
    const [still] = runs(1);
    expect(crossChecks(runs(60, () => ({ ...still, startedAt: new Date(START) })))).toEqual([]);
  });

  test.each([
    [1000 / 60, 'L/min taken for m3/h'],
    [4.402868, 'US gal/min taken for m3/h'],
  ])('are of another unit where flow is %d times the volume', (factor, words) => {
    const [doubt] = crossChecks(runs(60, ({ flowM3h }) => ({ flowM3h: (flowM3h ?? 0) * factor })));
    expect(doubt).toMatchObject({ about: 'unit' });
    expect(doubt?.text).toContain(words);
  });

  test('differ where flow and volume do not fit and no unit explains it', () => {
    expect(about(runs(60, ({ flowM3h }) => ({ flowM3h: (flowM3h ?? 0) * 1.3 })))).toEqual([['two measures differ', 'flow']]);
  });

  test('have a zero that is off where pressures differ by a constant', () => {
    expect(about(runs(60, ({ feedKpa }) => ({ feedKpa: (feedKpa ?? 0) + 9 })))).toEqual([['zero', 'feed pressure']]);
  });

  test('drift where pressures move apart', () => {
    expect(about(runs(400, ({ feedKpa }, at) => ({ feedKpa: (feedKpa ?? 0) + at / 40 })))).toEqual([['drift', 'feed pressure']]);
  });

  test('are swapped or in degrees Fahrenheit where the value cannot be', () => {
    expect(about(runs(60, ({ cartridgeDpKpa }) => ({ cartridgeDpKpa: -(cartridgeDpKpa ?? 0) })))).toEqual([['zero', 'cartridge pressure drop']]);
    expect(about(runs(60, ({ temperatureC }) => ({ temperatureC: (temperatureC ?? 0) * 1.8 + 32 })))).toEqual([['unit', 'temperature']]);
  });
});
