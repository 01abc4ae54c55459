import { describe, expect, test } from '@jest/globals';
import { strengthRecord } from '../../src/chemicals/core/strength-record.js';
import { volumeAtLevelL } from '../../src/chemicals/core/tank-volume.js';
import { lifeByMeter, type MeterEvent } from '../../src/condition/core/meter.js';
import { buildScenario } from '../scenario.js';
import type { ScenarioTank } from '../types.js';

const DAY_MS = 86_400_000;
const until = new Date('2026-03-10T07:00:00Z');
const demo = buildScenario({ until });
const tankOf = (key: string) => demo.tanks.find((tank) => tank.key === key) as ScenarioTank;
const litresOf = (tank: ScenarioTank) => tank.dips.map(({ at, levelM }) => ({ at, litres: volumeAtLevelL(tank, levelM) }));

describe('tanks', () => {
  test('are never empty and never overflow', () => {
    for (const tank of demo.tanks) {
      expect(tank.dips.length).toBeGreaterThan(50);
      for (const { litres } of litresOf(tank)) {
        expect(litres).toBeGreaterThan(tank.heelL);
        expect(litres).toBeLessThan(tank.capacityL);
      }
    }
  });

  /** Drawn between two dips, over what dose, flow and cleans ask for. */
  function drawnOverExpected(skidKey: string, fromDaysAgo: number, toDaysAgo: number): number {
    const tank = tankOf(`${skidKey} sodium hypochlorite`);
    const dips = litresOf(tank).filter(
      ({ at }) => at.getTime() >= until.getTime() - fromDaysAgo * DAY_MS && at.getTime() < until.getTime() - toDaysAgo * DAY_MS,
    );
    const [first, last] = [dips[0], dips.at(-1)];
    if (first === undefined || last === undefined) return Number.NaN;
    const within = ({ at }: { readonly at: Date }) => at >= first.at && at < last.at;
    const brought = tank.deliveries.filter(within).reduce((sum, { volumeL }) => sum + volumeL, 0);
    const all = litresOf(tank).map(({ at, litres }) => ({ at, volumeL: litres, strengthGL: null }));
    const strengthGL = strengthRecord(all, tank.deliveries, { usualGL: tank.strengthGL, storageC: tank.storageTemperatureC });
    let expected =
      demo.cleans.filter((clean) => clean.skidKey === skidKey && clean.kind === 'CEB' && clean.chemical === tank.chemical && within(clean)).length *
      (tank.litresPerCeb ?? 0);
    expected +=
      new Set(demo.cleans.filter((clean) => clean.skidKey === skidKey && clean.kind === 'CIP' && clean.chemical === tank.chemical && within(clean))).size *
      (tank.litresPerCip ?? 0);
    for (const { startedAt, filtrateM3 } of demo.cyclesOf(skidKey)) {
      if (within({ at: startedAt })) expected += ((tank.doseMgL ?? 0) * (filtrateM3 ?? 0)) / strengthGL(startedAt);
    }
    return (first.litres + brought - last.litres) / expected;
  }

  test('give what dose, flow and cleans ask for', () => {
    for (const key of ['fern-1', 'wick-1', 'vaal-1']) expect(drawnOverExpected(key, 300, 0)).toBeCloseTo(1, 1);
  });

  test('give too much where a pump has come to over-feed, slowly', () => {
    expect(drawnOverExpected('merla-1', 400, 150)).toBeCloseTo(1, 1);
    expect(drawnOverExpected('merla-1', 40, 0)).toBeGreaterThan(1.12);
  });

  test('last about six days more where one is low', () => {
    const tank = tankOf('brenn-1 sodium hypochlorite');
    const [before, last] = litresOf(tank).slice(-2);
    const perDay = ((before?.litres ?? 0) - (last?.litres ?? 0)) / 7;
    const days = ((last?.litres ?? 0) - tank.heelL) / perDay - (until.getTime() - (last?.at.getTime() ?? 0)) / DAY_MS;
    expect(days).toBeGreaterThan(3);
    expect(days).toBeLessThan(9);
  });
});

describe('meters', () => {
  test('are read so that every reading holds, through a rollover and an exchange', () => {
    for (const { kind, modulus, readings } of demo.meters) {
      const events = readings.map((reading): MeterEvent => (reading.kind === 'reading' ? reading : { ...reading }));
      const { rejected, points } = lifeByMeter(events, { modulus, mostPerHour: kind === 'run hours' ? 1 : null, step: 1 }, until);
      expect(rejected).toEqual([]);
      expect(points.at(-1)?.life ?? 0).toBeGreaterThan(100);
    }
    const falls = ({ readings }: (typeof demo.meters)[number]) =>
      readings.some(
        (reading, index) => reading.kind === 'reading' && reading.value < Number((readings[index - 1] as { value?: number } | undefined)?.value ?? 0),
      );
    expect(demo.meters.filter(falls).map(({ positionKey }) => positionKey)).toEqual(['hint-1 Feed pump']);
    expect(demo.meters.filter(({ readings }) => readings.some(({ kind }) => kind === 'exchange')).map(({ positionKey }) => positionKey)).toEqual([
      'wick-1 Feed pump',
    ]);
  });

  test('of a filtrate pump run with the cycles of its skid', () => {
    const meter = demo.meters.find(({ positionKey }) => positionKey === 'vaal-1 Filtrate pump');
    const read = meter?.readings.flatMap((reading) => (reading.kind === 'reading' ? [reading] : [])) ?? [];
    const [first, last] = [read[3], read.at(-3)];
    if (first === undefined || last === undefined) throw new Error('the meter has no readings');
    let hours = 0;
    for (const { startedAt, filtrationMinutes } of demo.cyclesOf('vaal-1')) if (startedAt >= first.at && startedAt < last.at) hours += filtrationMinutes / 60;
    expect(Math.abs((last.value - first.value) / hours - 1)).toBeLessThan(0.01);
  });
});
