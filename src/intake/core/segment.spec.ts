import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { QUALITY } from '../../shared/quality.js';
import { DEFAULT_SAMPLING_GATES } from './gates.js';
import type { Samples } from './samples.js';
import { closeOpenEnd, type OpenEnd, type SegmentSettings, segmentCycles } from './segment.js';

const settings: SegmentSettings = Object.freeze({
  filtrationModes: [1],
  setPointM3h: 36,
  filtrationFlowShare: 0.8,
  maxGapMinutes: 5,
  longestMinutes: null,
  intervalSeconds: null,
  gates: DEFAULT_SAMPLING_GATES,
  tmp: { scheme: 'dead-end', tmpFrom: 'pressures', feedHeightM: null, filtrateHeightM: null, concentrateHeightM: null } as const,
});
const start = Date.UTC(2025, 0, 1);
const time = (minute: number) => new Date(start + minute * 60_000);

type Row = Partial<Record<keyof Samples['columns'], number | null>>;

/** One row a minute from minute 0 on; a row that is `null` was not sampled */
function minutes(rows: readonly (Row | null)[]): Samples {
  const taken = rows.flatMap((row, minute) => (row ? [{ minute, row }] : []));
  const codes = [...new Set(taken.flatMap(({ row }) => Object.keys(row)))] as (keyof Samples['columns'])[];
  return {
    at: Float64Array.from(taken, ({ minute }) => start + minute * 60_000),
    columns: Object.fromEntries(codes.map((code) => [code, taken.map(({ row }) => row[code] ?? null)])),
  };
}

const filtering = (change: Row = {}): Row => ({ mode: 1, filtrate_flow: 36, feed_pressure: 120, filtrate_pressure: 80, temperature: 12, ...change });
const backwash: Row = { mode: 2, filtrate_flow: -60, feed_pressure: 20, filtrate_pressure: 150, temperature: 12 };
const standby: Row = { mode: 4, filtrate_flow: 0, feed_pressure: 10, filtrate_pressure: 10, temperature: 19 };
const repeat = (count: number, row: Row | null) => Array.from({ length: count }, () => row);
const noneLeftOut = { timeNotRising: 0, stateUnknown: 0, noDuration: 0 };

describe('cycles from samples with an operating mode', () => {
  test('run from the first sample in filtration to the first one out of it; standby and backwash are no cycles', () => {
    const day = minutes([standby, ...repeat(30, filtering()), backwash, ...repeat(30, filtering()), ...repeat(10, standby)]);
    const { cycles, leftOut, notResolvable } = segmentCycles(day, settings);
    expect(cycles.map((cycle) => [cycle.startedAt, cycle.endedAt, cycle.filtrationMinutes])).toEqual([
      [time(1), time(31), 30],
      [time(32), time(62), 30],
    ]);
    expect(cycles[0]).toMatchObject({
      flowM3h: 36,
      feedKpa: 120,
      filtrateKpa: 80,
      concentrateKpa: null,
      tmpKpa: null,
      temperatureC: 12,
      byHand: false,
      quality: 0,
    });
    expect(leftOut).toEqual(noneLeftOut);
    expect(notResolvable).toEqual([]);
  });

  test('take medians after the settling time, the start from minutes 2 to 5 and the end from the last two', () => {
    // Feed 300 while valves move, then 100, 101, 102 ... from minute 2 on
    const feed = Array.from({ length: 30 }, (_, minute) => filtering({ feed_pressure: minute < 2 ? 300 : 98 + minute }));
    const [cycle] = segmentCycles(minutes([backwash, ...feed, backwash]), settings).cycles;
    expect(cycle).toMatchObject({ feedKpa: 113.5, tmpStartKpa: 101 - 80, tmpEndKpa: 126.5 - 80 });
  });

  test('have no start or end value where a gap or the edge of the data hides it', () => {
    const { cycles } = segmentCycles(minutes([...repeat(20, filtering()), ...repeat(10, null), ...repeat(20, filtering()), backwash]), settings);
    expect(cycles.map(({ filtrationMinutes, tmpStartKpa, tmpEndKpa }) => [filtrationMinutes, tmpStartKpa, tmpEndKpa])).toEqual([
      [19, null, null],
      [20, null, 40],
    ]);
  });

  test('go on over a gap that is short enough', () => {
    expect(
      segmentCycles(minutes([backwash, ...repeat(10, filtering()), ...repeat(4, null), ...repeat(10, filtering()), backwash]), settings).cycles,
    ).toHaveLength(1);
    expect(
      segmentCycles(minutes([backwash, ...repeat(10, filtering()), ...repeat(5, null), ...repeat(10, filtering()), backwash]), settings).cycles,
    ).toHaveLength(2);
  });

  test('end when the backwash counter moves, for a backwash that falls between two samples', () => {
    const counted = (count: number | null) => filtering({ backwash_count: count });
    const { cycles } = segmentCycles(minutes([backwash, ...repeat(15, counted(7)), counted(null), ...repeat(14, counted(8)), backwash]), settings);
    expect(cycles.map(({ filtrationMinutes }) => filtrationMinutes)).toEqual([16, 14]);
    const readLate = [counted(7), counted(7), backwash, ...repeat(5, counted(null)), ...repeat(5, counted(8)), backwash];
    expect(segmentCycles(minutes(readLate), settings).cycles.map(({ filtrationMinutes }) => filtrationMinutes)).toEqual([2, 10]);
  });

  test('are cut where they grow too long; the cut is neither a start nor an end', () => {
    const { cycles } = segmentCycles(minutes([backwash, ...repeat(70, filtering()), backwash]), { ...settings, longestMinutes: 30 });
    expect(cycles.map(({ filtrationMinutes, tmpStartKpa, tmpEndKpa }) => [filtrationMinutes, tmpStartKpa, tmpEndKpa])).toEqual([
      [30, 40, null],
      [30, null, null],
      [10, null, 40],
    ]);
  });

  test('take more than one mode of filtration', () => {
    const rows = [backwash, ...repeat(5, filtering()), ...repeat(5, filtering({ mode: 3 })), backwash];
    expect(segmentCycles(minutes(rows), { ...settings, filtrationModes: [1, 3] }).cycles).toMatchObject([{ filtrationMinutes: 10 }]);
  });

  test('that are too short to settle keep their time and filtrate and are flagged', () => {
    expect(segmentCycles(minutes([backwash, ...repeat(2, filtering()), backwash]), settings).cycles).toMatchObject([
      { filtrationMinutes: 2, filtrateM3: 1.2, flowM3h: 36, tmpStartKpa: null, quality: QUALITY.notSettled },
    ]);
  });

  test('count what says nothing: time that does not rise, no state, no duration', () => {
    const rows = minutes([
      backwash,
      ...repeat(3, filtering()),
      filtering({ mode: null }),
      ...repeat(6, filtering()),
      backwash,
      ...repeat(9, null),
      filtering(),
    ]);
    const at = Array.from(rows.at);
    const doubled = { at: [...at.slice(0, 3), at[1] ?? 0, ...at.slice(3)], columns: insertRow(rows.columns, 3) };
    const { cycles, leftOut, openEnd } = segmentCycles(doubled, settings);
    expect(cycles).toMatchObject([{ filtrationMinutes: 10 }]);
    expect(leftOut).toEqual({ timeNotRising: 1, stateUnknown: 1, noDuration: 0 });
    expect(segmentCycles(minutes([...repeat(12, null), standby]), settings, openEnd).leftOut).toEqual({ ...noneLeftOut, timeNotRising: 1 });
    const later = { ...minutes([standby]), at: [start + 3_600_000] };
    expect(segmentCycles(later, settings, openEnd).leftOut).toEqual({ ...noneLeftOut, noDuration: 1 });
  });
});

function insertRow(columns: Samples['columns'], row: number): Samples['columns'] {
  return Object.fromEntries(Object.entries(columns).map(([code, values]) => [code, [...values.slice(0, row), values[row] ?? null, ...values.slice(row)]]));
}

describe('cycles from samples without a mode', () => {
  test('are told by a flow above its share of the set point', () => {
    const flows = [0, ...Array<number>(10).fill(29), 28, ...Array<number>(5).fill(36), -60];
    const rows = flows.map((flow) => filtering({ filtrate_flow: flow, mode: 9 }));
    const expected = [{ filtrationMinutes: 10 }, { filtrationMinutes: 5 }];
    expect(segmentCycles(minutes(rows), { ...settings, filtrationModes: null }).cycles).toMatchObject(expected);
    expect(segmentCycles(minutes(flows.map((flow) => ({ filtrate_flow: flow }))), settings).cycles).toMatchObject(expected);
  });

  test('are not told where the set point is not known either', () => {
    const { cycles, leftOut } = segmentCycles(minutes(repeat(30, filtering())), { ...settings, filtrationModes: null, setPointM3h: null });
    expect([cycles, leftOut.stateUnknown]).toEqual([[], 30]);
  });
});

describe('samples too far apart', () => {
  const everyTenMinutes = minutes(Array.from({ length: 71 }, (_, minute) => (minute % 10 ? null : minute === 0 || minute === 70 ? backwash : filtering())));

  test('cannot resolve settling time, start and end: they are said and not applied', () => {
    const { cycles, notResolvable } = segmentCycles(everyTenMinutes, { ...settings, maxGapMinutes: 15 });
    expect(notResolvable).toEqual(['settling time', 'start of cycle', 'end of cycle']);
    expect(cycles).toMatchObject([{ filtrationMinutes: 60, tmpStartKpa: null, tmpEndKpa: null, feedKpa: 120, quality: QUALITY.good }]);
  });
});

describe('the filtrate of a cycle', () => {
  const of = (rows: (Row | null)[]) => segmentCycles(minutes([backwash, ...rows, { ...backwash, filtrate_total: 118 }]), settings).cycles[0]?.filtrateM3;

  test('is the difference of the totaliser where there is one', () => {
    expect(of(Array.from({ length: 30 }, (_, minute) => filtering({ filtrate_total: 100 + 0.6 * minute })))).toBe(18);
  });

  test('is else the flow over time, also when the totaliser went back', () => {
    expect(of(repeat(30, filtering()))).toBeCloseTo(18, 9);
    expect(of(Array.from({ length: 30 }, () => filtering({ filtrate_total: 900 })))).toBeCloseTo(18, 9);
    expect(of([...repeat(10, filtering({ filtrate_flow: 30 })), ...repeat(20, filtering({ filtrate_flow: 36 }))])).toBeCloseTo(5 + 12, 9);
  });

  test('is carried over missing flows up to half of the time, and unknown beyond', () => {
    expect(of([...repeat(20, filtering()), ...repeat(10, filtering({ filtrate_flow: null }))])).toBeCloseTo(18, 9);
    expect(of([...repeat(10, filtering()), ...repeat(20, filtering({ filtrate_flow: null }))])).toBeNull();
  });
});

describe('pressures and cartridges', () => {
  const only = (change: Row, tmp: Partial<SegmentSettings['tmp']> = {}) =>
    segmentCycles(minutes([backwash, ...repeat(10, filtering(change)), backwash]), { ...settings, tmp: { ...settings.tmp, ...tmp } }).cycles[0];

  test('start and end use the height of the transmitters, or the pressure measured directly', () => {
    expect(only({}, { filtrateHeightM: 1 })?.tmpStartKpa).toBeCloseTo(40 - 9.789, 9);
    expect(only({ tmp: 44 }, { tmpFrom: 'measured' })).toMatchObject({ tmpKpa: 44, tmpStartKpa: 44, tmpEndKpa: 44 });
    expect(only({ filtrate_pressure: null })).toMatchObject({ filtrateKpa: null, tmpStartKpa: null });
  });

  test('the pressure drop of the cartridges is measured or the difference before and after', () => {
    expect(only({ cartridge_dp: 22 })).toMatchObject({ cartridgeDpKpa: 22 });
    expect(only({ cartridge_inlet_pressure: 300, cartridge_outlet_pressure: 270, feed_turbidity: 4 })).toMatchObject({
      cartridgeDpKpa: 30,
      feedTurbidityNtu: 4,
    });
    expect(only({ cartridge_inlet_pressure: 300 })).toMatchObject({ cartridgeDpKpa: null });
  });
});

describe('a long record in parts', () => {
  test('gives the same cycles as the whole, wherever it is cut', () => {
    const row = fc.constantFrom<Row | null>(
      filtering(),
      filtering({ feed_pressure: 130 }),
      filtering({ backwash_count: 4 }),
      filtering({ backwash_count: 5 }),
      backwash,
      { mode: null },
      null,
    );
    const rows = fc.array(fc.tuple(row, fc.integer({ min: 1, max: 12 })), { maxLength: 30 });
    fc.assert(
      fc.property(rows, fc.array(fc.nat(200), { maxLength: 6 }), fc.constantFrom(null, 10, 25), (runs, cuts, longestMinutes) => {
        const all = minutes(runs.flatMap(([one, count]) => repeat(count, one)));
        const fixed = { ...settings, intervalSeconds: 60, longestMinutes };
        const whole = segmentCycles(all, fixed);
        const edges = [0, ...cuts.map((cut) => Math.min(cut, all.at.length)).sort((a, b) => a - b), all.at.length];
        let openEnd: OpenEnd | null = null;
        const cycles = [];
        const counts = { ...noneLeftOut };
        for (const [i, edge] of edges.slice(1).entries()) {
          const from = edges[i] ?? 0;
          const part: Samples = {
            at: all.at.slice(from, edge),
            columns: Object.fromEntries(Object.entries(all.columns).map(([code, values]) => [code, values.slice(from, edge)])),
          };
          const result = segmentCycles(part, fixed, openEnd);
          // As it comes back from a database
          openEnd = JSON.parse(JSON.stringify(result.openEnd)) as OpenEnd;
          cycles.push(...result.cycles);
          for (const key of Object.keys(counts) as (keyof typeof counts)[]) counts[key] += result.leftOut[key];
        }
        expect(cycles).toEqual(whole.cycles);
        expect(counts).toEqual(whole.leftOut);
        expect(openEnd && closeOpenEnd(openEnd, fixed)).toEqual(closeOpenEnd(whole.openEnd, fixed));
      }),
      { numRuns: 100 },
    );
  });

  test('can be closed: the run that is still open becomes a cycle up to its last sample', () => {
    const { cycles, openEnd } = segmentCycles(minutes([backwash, ...repeat(10, filtering())]), settings);
    expect(cycles).toEqual([]);
    expect(closeOpenEnd(openEnd, settings)).toMatchObject({ startedAt: time(1), filtrationMinutes: 9, tmpStartKpa: 40, tmpEndKpa: null });
    expect(closeOpenEnd(segmentCycles(minutes([standby]), settings).openEnd, settings)).toBeNull();
    expect(closeOpenEnd(segmentCycles(minutes([]), settings).openEnd, settings)).toBeNull();
  });
});
