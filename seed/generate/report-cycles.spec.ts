import { beforeAll, describe, expect, test } from '@jest/globals';
import { fluxLmh, permeabilityLmhBar } from '../../src/condition/core/permeability.js';
import { temperatureCorrection } from '../../src/condition/core/temperature-correction.js';
import type { CycleFact } from '../../src/intake/core/cycle-fact.js';
import { transmembraneKpa } from '../../src/intake/core/tmp.js';
import { QUALITY } from '../../src/shared/quality.js';
import { SIGNALS } from '../../src/shared/signals.js';
import { buildScenario } from '../scenario.js';
import type { ScenarioSkid } from '../types.js';

const DAY_MS = 86_400_000;
const until = new Date('2026-03-10T07:00:00Z');
const demo = buildScenario({ until });

interface Day {
  cycles: number;
  m3: number;
  permeability: number;
  cartridgeKpa: number;
}

/** What one pass over all cycles of a skid found. */
interface Found {
  count: number;
  overlaps: number;
  outOfRange: number;
  withoutTemperature: number;
  stuck: number;
  longestGapDays: number;
  permeability: [low: number, high: number];
  /** Mean values of each day, normalised */
  readonly days: Map<number, Day>;
}

function permeabilityOf(cycle: CycleFact, skid: ScenarioSkid): number | null {
  const { flowScheme, tmpFrom, feedHeightM, filtrateHeightM, concentrateHeightM, areas } = skid;
  if (flowScheme === null || tmpFrom === null || cycle.flowM3h === null || cycle.temperatureC === null) return null;
  const result = transmembraneKpa(cycle, { scheme: flowScheme, tmpFrom, feedHeightM, filtrateHeightM, concentrateHeightM });
  const areaM2 = areas.findLast(({ fromDay }) => fromDay <= cycle.startedAt.toISOString().slice(0, 10))?.areaM2 ?? 0;
  return result.kind === 'missing' ? null : permeabilityLmhBar(fluxLmh(cycle.flowM3h, areaM2), result.tmpKpa, cycle.temperatureC, 20);
}

function isPossible({ flowM3h, feedKpa, filtrateKpa, temperatureC, feedTurbidityNtu, cartridgeDpKpa }: CycleFact): boolean {
  const pairs = [
    [flowM3h, SIGNALS.filtrate_flow],
    [feedKpa, SIGNALS.feed_pressure],
    [filtrateKpa, SIGNALS.filtrate_pressure],
    [temperatureC, SIGNALS.temperature],
    [feedTurbidityNtu, SIGNALS.feed_turbidity],
    [cartridgeDpKpa, SIGNALS.cartridge_dp],
  ] as const;
  return pairs.every(([value, { plausible }]) => value === null || (value >= plausible[0] && value <= plausible[1]));
}

function lookThrough(skid: ScenarioSkid): Found {
  const found: Found = { count: 0, overlaps: 0, outOfRange: 0, withoutTemperature: 0, stuck: 0, longestGapDays: 0, permeability: [1e9, 0], days: new Map() };
  let endedMs = 0;
  for (const cycle of demo.cyclesOf(skid.key)) {
    const startMs = cycle.startedAt.getTime();
    found.count += 1;
    if (startMs < endedMs || cycle.endedAt <= cycle.startedAt || cycle.endedAt > until) found.overlaps += 1;
    if (endedMs > 0) found.longestGapDays = Math.max(found.longestGapDays, (startMs - endedMs) / DAY_MS);
    endedMs = cycle.endedAt.getTime();
    if (!isPossible(cycle)) found.outOfRange += 1;
    if (cycle.temperatureC === null) found.withoutTemperature += 1;
    if (cycle.quality === QUALITY.stuck) found.stuck += 1;
    const permeability = permeabilityOf(cycle, skid);
    if (permeability === null || cycle.quality !== QUALITY.good || cycle.temperatureC === null || cycle.flowM3h === null) continue;
    found.permeability = [Math.min(found.permeability[0], permeability), Math.max(found.permeability[1], permeability)];
    const day = found.days.get(Math.floor(startMs / DAY_MS)) ?? { cycles: 0, m3: 0, permeability: 0, cartridgeKpa: 0 };
    const cartridgeKpa = ((cycle.cartridgeDpKpa ?? 0) * (skid.ratedFlowM3h ?? 0)) / cycle.flowM3h / temperatureCorrection(cycle.temperatureC, 20);
    day.permeability = (day.permeability * day.cycles + permeability) / (day.cycles + 1);
    day.cartridgeKpa = (day.cartridgeKpa * day.cycles + cartridgeKpa) / (day.cycles + 1);
    day.cycles += 1;
    day.m3 += cycle.filtrateM3 ?? 0;
    found.days.set(Math.floor(startMs / DAY_MS), day);
  }
  return found;
}

describe('the cycles that gateways report', () => {
  const bySkid = new Map<string, Found>();
  const of = (key: string) => bySkid.get(key) ?? lookThrough(skidOf(key));
  const skidOf = (key: string) => demo.skids.find((skid) => skid.key === key) as ScenarioSkid;
  const dayOf = (at: Date) => Math.floor(at.getTime() / DAY_MS);
  beforeAll(() => {
    for (const key of demo.skidsWithCycles) bySkid.set(key, lookThrough(skidOf(key)));
  });

  test('are about 400 000', () => {
    const total = [...bySkid.values()].reduce((sum, { count }) => sum + count, 0);
    expect(total).toBeGreaterThan(380_000);
    expect(total).toBeLessThan(440_000);
  });

  test('come in order, do not overlap, and have possible values', () => {
    for (const { overlaps, outOfRange } of bySkid.values()) expect([overlaps, outOfRange]).toEqual([0, 0]);
  });

  test('have a normalised permeability of 60 to 400 L/m²·h·bar, always', () => {
    for (const { permeability } of bySkid.values()) {
      expect(permeability[0]).toBeGreaterThan(60);
      expect(permeability[1]).toBeLessThan(400);
    }
  });

  test('recover in each recovery clean, by a fifth to three fifths, and never beyond new', () => {
    for (const [key, { days }] of bySkid) {
      const cleaned = new Set(demo.cleans.filter(({ skidKey, kind }) => skidKey === key && kind === 'CIP').map(({ at }) => dayOf(at)));
      for (const day of cleaned) {
        const [before, after] = [days.get(day - 1)?.permeability, days.get(day + 1)?.permeability];
        if (before === undefined || after === undefined) continue;
        expect([key, day, after / before > 1.2 && after / before < 1.65]).toEqual([key, day, true]);
        expect(after).toBeLessThan(skidOf(key).baselineLmhBar ?? 400);
      }
    }
  });

  test('have a cartridge pressure drop that ends near the limit and falls back with the next set', () => {
    let changes = 0;
    for (const { positionKey, removedAt, removalReason } of demo.fittings) {
      const skid = demo.skids.find(({ key }) => positionKey === `${key} Cartridge housing`);
      if (skid === undefined || removedAt === null || !bySkid.has(skid.key)) continue;
      const { days } = of(skid.key);
      const [before, after] = [days.get(dayOf(removedAt) - 1)?.cartridgeKpa, days.get(dayOf(removedAt) + 1)?.cartridgeKpa];
      if (before === undefined || after === undefined) continue;
      changes += 1;
      const limitKpa = skid.cartridgeLimitKpa ?? 0;
      expect(after).toBeLessThan(0.35 * limitKpa);
      expect(before).toBeGreaterThan(removalReason === 'changed by the calendar' ? 1.2 * after : 2 * after);
      expect(before).toBeLessThan(1.15 * limitKpa);
    }
    expect(changes).toBeGreaterThan(60);
  });

  test('end with one set near its limit and one membrane about to need its clean', () => {
    const lately = (key: string) => [...of(key).days.values()].slice(-3);
    expect(lately('merla-1')[0]?.cartridgeKpa).toBeGreaterThan(0.75 * 140);
    const sinceClean = [...of('fern-2').days.values()].slice(-86, -80);
    expect((lately('fern-2')[0]?.permeability ?? 0) / (sinceClean[0]?.permeability ?? 1)).toBeLessThan(0.78);
  });

  test('stop while a skid is laid up and while a gateway is down', () => {
    expect(of('hint-2').longestGapDays).toBeCloseTo(140, 0);
    expect(of('merla-1').longestGapDays).toBeGreaterThan(2.5);
    expect(of('fern-1').longestGapDays).toBeLessThan(0.5);
  });

  test('show a missing thermometer and a stuck one', () => {
    expect(of('vaal-2').withoutTemperature).toBeGreaterThan(1000);
    expect(of('merla-1').stuck).toBeGreaterThan(300);
    expect(of('fern-1').stuck).toBe(0);
  });

  test('lose flow to a wearing pump, and win part of it back with a new seal', () => {
    const flows = [...of('hint-1').days.values()].map(({ m3 }) => m3);
    const mean = (from: number, to: number) => flows.slice(from, to).reduce((sum, m3) => sum + m3, 0) / (to - from);
    const count = flows.length;
    expect(mean(count - 230, count - 217)).toBeLessThan(mean(count - 212, count - 199));
  });
});
