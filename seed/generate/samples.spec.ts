import { describe, expect, test } from '@jest/globals';
import { DEFAULT_SAMPLING_GATES } from '../../src/intake/core/gates.js';
import type { Samples } from '../../src/intake/core/samples.js';
import { segmentCycles } from '../../src/intake/core/segment.js';
import type { SignalCode } from '../../src/shared/signals.js';
import { buildScenario } from '../scenario.js';
import type { ScenarioSample } from '../types.js';

const until = new Date('2026-03-10T07:00:00Z');
const demo = buildScenario({ until, years: 0.1 });

function inColumns(rows: readonly ScenarioSample[]): Samples {
  const codes = [...new Set(rows.flatMap(({ values }) => Object.keys(values)))] as SignalCode[];
  return {
    at: rows.map(({ at }) => at.getTime()),
    columns: Object.fromEntries(codes.map((code) => [code, rows.map(({ values }) => values[code] ?? null)])),
  };
}

describe('minute samples', () => {
  test.each(demo.skidsWithSamples)('of %s come every minute of the last two weeks', (key) => {
    const rows = [...demo.samplesOf(key)];
    expect(rows[0]?.at).toEqual(demo.samplesFrom);
    expect(rows.length).toBeGreaterThan(14 * 1440 - 90);
    expect(rows.every(({ at }, index) => index === 0 || at.getTime() - (rows[index - 1]?.at.getTime() ?? 0) === 60_000)).toBe(true);
    expect(new Set(rows.map(({ values }) => values.mode))).toEqual(new Set([1, 2, 3, 4]));
  });

  test.each(demo.skidsWithSamples)('of %s give the reported cycles again when they are segmented', (key) => {
    const skid = demo.skids.find((one) => one.key === key);
    if (!skid?.flowScheme || !skid.tmpFrom) throw new Error('no such skid');
    const { flowScheme: scheme, tmpFrom, feedHeightM, filtrateHeightM, concentrateHeightM } = skid;
    const { cycles } = segmentCycles(inColumns([...demo.samplesOf(key)]), {
      filtrationModes: [1],
      setPointM3h: skid.ratedFlowM3h,
      filtrationFlowShare: 0.8,
      maxGapMinutes: 10,
      longestMinutes: null,
      intervalSeconds: 60,
      gates: DEFAULT_SAMPLING_GATES,
      tmp: { scheme, tmpFrom, feedHeightM, filtrateHeightM, concentrateHeightM },
    });
    const reported = [...demo.cyclesOf(key)].filter(({ startedAt }) => startedAt > demo.samplesFrom);
    const pairs = reported.flatMap((cycle) => {
      const same = cycles.find(({ startedAt }) => Math.abs(startedAt.getTime() - cycle.startedAt.getTime()) <= 60_000);
      return same === undefined || cycle.filtrationMinutes < 8 ? [] : [{ cycle, same }];
    });
    expect(pairs.length).toBeGreaterThan(0.93 * reported.length);
    for (const { cycle, same } of pairs) {
      expect(Math.abs((same.feedKpa ?? 0) - (cycle.feedKpa ?? 0))).toBeLessThan(2);
      expect(Math.abs((same.flowM3h ?? 0) / (cycle.flowM3h ?? 1) - 1)).toBeLessThan(0.03);
      expect(Math.abs((same.tmpEndKpa ?? 0) - (cycle.tmpEndKpa ?? 0))).toBeLessThan(2.5);
    }
  });
});
