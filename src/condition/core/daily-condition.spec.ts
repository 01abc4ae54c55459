import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import type { CycleFact } from '../../intake/core/cycle-fact.js';
import { type AssessedMembrane, assessCycle, type CycleAssessment, type SkidBasis } from './assess-cycle.js';
import { type DailyCondition, dailyCondition } from './daily-condition.js';
import { DEFAULT_GATES } from './gates.js';
import type { LeftOutReason } from './left-out.js';

const at = (text: string) => new Date(text).getTime();

function cycle(startMs: number, minutes: number, change: Partial<CycleFact> = {}): CycleFact {
  return {
    startedAt: new Date(startMs),
    endedAt: new Date(startMs + minutes * 60_000),
    filtrationMinutes: minutes,
    filtrateM3: minutes * 0.6,
    flowM3h: 36,
    feedKpa: 120,
    filtrateKpa: 78,
    concentrateKpa: null,
    tmpKpa: null,
    tmpStartKpa: null,
    tmpEndKpa: null,
    temperatureC: 12,
    cartridgeDpKpa: null,
    feedTurbidityNtu: null,
    quality: 0,
    byHand: false,
    ...change,
  };
}

interface AssessedCycle {
  readonly cycle: CycleFact;
  readonly assessment: CycleAssessment;
}

/** A cycle whose assessment is given and not computed */
function assessed(of: CycleFact, permeabilityLmhBar: number | LeftOutReason, cartridgeDpRefKpa: number | null = null): AssessedCycle {
  const good: Omit<AssessedMembrane, 'permeabilityLmhBar'> = {
    kind: 'assessed',
    fluxLmh: 60,
    tmpKpa: 42,
    permeabilityStartLmhBar: null,
    resistancePerM: 2e12,
    temperatureC: 12,
  };
  return {
    cycle: of,
    assessment: {
      membrane: typeof permeabilityLmhBar === 'number' ? { ...good, permeabilityLmhBar } : { kind: 'left-out', reason: permeabilityLmhBar },
      cartridge: cartridgeDpRefKpa === null ? { kind: 'left-out', reason: 'no pressure drop' } : { kind: 'assessed', cartridgeDpRefKpa },
    },
  };
}

function daysOf(cycles: readonly AssessedCycle[], timeZone: string): DailyCondition[] {
  const said = new Map(cycles.map(({ cycle: of, assessment }) => [of, assessment]));
  return dailyCondition([...said.keys()], timeZone, (of) => {
    const assessment = said.get(of);
    if (assessment === undefined) throw new Error('a cycle that was not given');
    return assessment;
  });
}

describe('condition by day', () => {
  test('counts cycles, hours and filtrate of the day at the site', () => {
    const cycles = ['2025-01-01T17:00:00Z', '2025-01-01T18:00:00Z', '2025-01-01T19:00:00Z'].map((text) => assessed(cycle(at(text), 30), 200));
    expect(daysOf(cycles, 'Asia/Kolkata')).toMatchObject([
      { day: '2025-01-01', cycles: 2, filtrationHours: 1, filtrateM3: 36, filtrateEstimated: false },
      { day: '2025-01-02', cycles: 1, filtrationHours: 0.5, filtrateM3: 18 },
    ]);
    expect(daysOf([], 'UTC')).toEqual([]);
  });

  test('gives medians and the 10th and 90th percentile of permeability', () => {
    // Of the eleven values 1 to 11, one tenth of the way is 1 + 0.1 * 10 = 2, nine tenths 10.
    const cycles = Array.from({ length: 11 }, (_, i) => assessed(cycle(at('2025-01-01T00:00:00Z') + i * 3_600_000, 30, { feedTurbidityNtu: i }), i + 1, 2 * i));
    expect(daysOf(cycles, 'UTC')[0]).toMatchObject({
      permeability: { median: 6, low: 2, high: 10, n: 11 },
      cartridgeDpKpa: 10,
      feedTurbidityNtu: 5,
      permeabilityStart: null,
      fluxLmh: 60,
      leftOut: {},
      cartridgeLeftOut: {},
    });
  });

  test('counts what was left out, by reason, and says nothing where all was', () => {
    const start = at('2025-01-01T00:00:00Z');
    const cycles = (['no temperature', 'no temperature', 'low flow'] as const).map((reason, i) => assessed(cycle(start + i * 3_600_000, 30), reason));
    expect(daysOf(cycles, 'UTC')[0]).toMatchObject({
      cycles: 3,
      permeability: null,
      fluxLmh: null,
      leftOut: { 'no temperature': 2, 'low flow': 1 },
      cartridgeLeftOut: { 'no pressure drop': 3 },
    });
  });

  test('shares a run out over the days that it touches; it counts as a cycle on the day of its start', () => {
    const days = daysOf([assessed(cycle(at('2025-01-01T18:00:00Z'), 36 * 60), 200)], 'UTC');
    expect(days.map(({ day, cycles, filtrationHours, filtrateM3 }) => [day, cycles, filtrationHours, Math.round(filtrateM3 ?? 0)])).toEqual([
      ['2025-01-01', 1, 6, 216],
      ['2025-01-02', 0, 24, 864],
      ['2025-01-03', 0, 6, 216],
    ]);
    expect(days[1]).toMatchObject({ permeability: null, byHand: false });
  });

  test('estimates a volume that was not measured from flow and time, else from the other cycles, and says so', () => {
    const start = at('2025-01-01T00:00:00Z');
    const of = (i: number, change: Partial<CycleFact>) => assessed(cycle(start + i * 3_600_000, 30, change), 200);
    expect(daysOf([of(0, {}), of(1, { filtrateM3: null, flowM3h: 30 })], 'UTC')[0]).toMatchObject({ filtrateM3: 18 + 15, filtrateEstimated: true });
    expect(daysOf([of(0, {}), of(1, { filtrateM3: null, flowM3h: null })], 'UTC')[0]).toMatchObject({ filtrateM3: 36, filtrateEstimated: true });
    expect(daysOf([of(0, { filtrateM3: null, flowM3h: null })], 'UTC')[0]).toMatchObject({ filtrateM3: null, filtrateEstimated: true });
  });

  test('is by hand when nothing else was read', () => {
    const start = at('2025-01-01T08:00:00Z');
    const hand = assessed(cycle(start, 0, { byHand: true, filtrateM3: null }), 200);
    expect(daysOf([hand], 'UTC')[0]).toMatchObject({ byHand: true, filtrationHours: 0, filtrateM3: null, filtrateEstimated: false });
    expect(daysOf([hand, assessed(cycle(start, 30), 200)], 'UTC')[0]).toMatchObject({ byHand: false });
  });

  test('loses no hour and no filtrate, gives no day more hours than it has, and does not mind the order', () => {
    const gapAndLength = fc.tuple(fc.integer({ min: 1, max: 900 }), fc.integer({ min: 1, max: 3000 }));
    fc.assert(
      fc.property(fc.array(gapAndLength, { minLength: 1, maxLength: 30 }), fc.constantFrom('UTC', 'Europe/Berlin', 'Australia/Lord_Howe'), (runs, zone) => {
        let ms = at('2025-03-20T00:00:00Z');
        const cycles = runs.map(([gap, length]) => {
          const one = assessed(cycle(ms + gap * 60_000, length), 200);
          ms = one.cycle.endedAt.getTime();
          return one;
        });
        const days = daysOf(cycles, zone);
        const sum = (values: number[]) => values.reduce((a, b) => a + b, 0);
        expect(sum(days.map((day) => day.filtrationHours))).toBeCloseTo(sum(runs.map(([, length]) => length / 60)), 6);
        expect(sum(days.map((day) => day.filtrateM3 ?? 0))).toBeCloseTo(sum(runs.map(([, length]) => length * 0.6)), 6);
        expect(Math.max(...days.map((day) => day.filtrationHours))).toBeLessThanOrEqual(25 + 1e-9);
        expect(daysOf([...cycles].reverse(), zone)).toEqual(days);
      }),
      { numRuns: 40 },
    );
  });

  test('of two years, 35,040 cycles, with their assessment, takes well under a second', () => {
    const basis: SkidBasis = {
      scheme: 'dead-end',
      tmpFrom: 'pressures',
      feedHeightM: null,
      filtrateHeightM: null,
      concentrateHeightM: null,
      areaM2: 600,
      referenceC: 20,
      ratedFlowM3h: 36,
      cartridgeReferenceFlowM3h: null,
    };
    const start = at('2024-01-01T00:00:00Z');
    const facts = Array.from({ length: 35_040 }, (_, i) => cycle(start + i * 1_800_000, 28, { feedKpa: 118 + (i % 7) }));
    // Time on the processor, so that a busy machine does not count
    const begun = process.cpuUsage();
    const days = dailyCondition(facts, 'Europe/Berlin', (fact) => assessCycle(fact, basis, DEFAULT_GATES));
    const { user, system } = process.cpuUsage(begun);
    expect((user + system) / 1000).toBeLessThan(900);
    expect(days).toHaveLength(731);
  });
});
