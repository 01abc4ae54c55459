import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { dayPlus } from '../../../shared/day.js';
import type { KnownOfSkid, OutlookDay, SetFitted } from './known-of-skid.js';
import { learnMembranes, taughtBy } from './learned-membranes.js';
import { outlooksOf } from './outlooks-of-skid.js';

const FIRST = '2026-01-01';

const known = (given: Partial<KnownOfSkid> = {}): KnownOfSkid => ({
  scheme: null,
  tmpFrom: null,
  skidId: 'a',
  permeabilityLimitFraction: 0.7,
  cartridgeLimitKpa: 150,
  areaM2: 200,
  serviceState: 'in service',
  lastReadingAt: null,
  timeZone: 'UTC',
  baselines: {
    commissioning: { kind: 'baseline', permeabilityLmhBar: 200, from: 'commissioning', day: FIRST, assumed: false, referenceC: 20 },
    lastCip: { kind: 'baseline', permeabilityLmhBar: 200, from: 'commissioning', day: FIRST, assumed: false, referenceC: 20 },
    lastCeb: { kind: 'too-little-data', have: 0, need: 1 },
  } as unknown as NonNullable<KnownOfSkid['baselines']>,
  dailyLoadM3: 240,
  dailyLoadSd: 20,
  doubts: [],
  ...given,
});

const set = (fittedOn: string): SetFitted => ({ positionId: 'p', partId: 's', fittedOn, removedOn: null, removalReason: null, itemId: 'i', setCount: 1 });

interface Shape {
  readonly permeability?: (at: number) => number | null;
  readonly filtrateM3?: (at: number) => number | null;
  readonly isKept?: (at: number) => boolean;
  readonly days?: number;
}

const record = ({ permeability = (at) => 190 * 0.998 ** at + Math.sin(at), filtrateM3 = () => 240, isKept = () => true, days = 60 }: Shape): OutlookDay[] =>
  Array.from({ length: days }, (_, at) => ({
    day: dayPlus(FIRST, at),
    filtrateM3: filtrateM3(at),
    permeability: permeability(at),
    cartridgeDpKpa: 30 + at + Math.sin(at),
  })).filter((_, at) => isKept(at));

function reasonOf(shape: Shape, given: Partial<KnownOfSkid> = {}, sets: readonly SetFitted[] = []) {
  const days = record(shape);
  return outlooksOf(known(given), new Date(`${dayPlus(FIRST, (shape.days ?? 60) - 1)}T12:00:00Z`), days, [], sets).map(({ kind, reason, dataUsed }) => ({
    kind,
    reason,
    dataUsed,
  }));
}

describe('a record that cannot be right', () => {
  test.each([
    ['never changes', { permeability: () => 180 }, /Check this instrument: the permeability has read exactly 180 L\/m2 h bar on the last 14 days/],
    [
      'reads below nought',
      { permeability: (at: number) => (at > 55 ? -3 : 180 + Math.sin(at)) },
      /Check this instrument: the permeability reads nought or below on 4 of the last 14 days/,
    ],
    ['pauses for months', { isKept: (at: number) => at < 20 || at > 100, days: 130 }, /was not read for 82 days, from 20 Jan to 12 Apr/],
    [
      'stopped long before the rest',
      { permeability: (at: number) => (at < 20 ? 180 + Math.sin(at) : null) },
      /Check this instrument: the permeability was last read on 20 Jan, 40 days before the latest reading/,
    ],
    [
      'has a counter that jumps',
      { filtrateM3: (at: number) => (at === 40 ? 90_000 : 240) },
      /Check the flow meter: 90,000 m3 of filtrate stand against 10 Feb, where 240 m3 a day are usual/,
    ],
    ['has a counter that runs back', { filtrateM3: (at: number) => (at === 40 ? -500 : 240) }, /Check the flow meter: -500 m3/],
  ] satisfies [string, Shape, RegExp][])('is named where it %s', (_, shape, said) => {
    const [membranes] = reasonOf(shape);
    expect(membranes?.reason).toMatch(said);
    expect(membranes?.dataUsed.some((line) => said.test(line))).toBe(true);
  });

  test('says that a limit was already met, and on what day; and where the limit itself is wrong', () => {
    const [passed] = reasonOf({ permeability: (at) => 190 - 2 * at });
    expect(passed).toMatchObject({ kind: 'limit-met', reason: expect.stringMatching(/the limit of 140 L\/m2 h bar was already met on 27 Jan/) });
    const [wrong] = reasonOf({}, { permeabilityLimitFraction: 1.2 });
    expect(wrong?.reason).toMatch(/Check the limit: the permeability was 19\d(\.\d)? L\/m2 h bar when it began, which is past 240/);
  });

  test('says where a part is fitted later than anything was read', () => {
    expect(reasonOf({}, {}, [set('2026-06-01')])[1]?.reason).toMatch(/Check the date: the part is on record as fitted on 1 Jun, after the latest reading/);
    expect(reasonOf({ days: 1 }).map(({ kind }) => kind)).toEqual(['too-little-data']);
  });

  test('a sound record has nothing to check', () => {
    for (const { reason } of reasonOf({}, {}, [set(FIRST)])) expect(reason).not.toMatch(/Check/);
  });

  test('never makes a number that is none, nor an exception, whatever was read', () => {
    const odd = fc.oneof(
      fc.constantFrom(0, -5, 180, 1e12, 1e-12, null, Number.NaN, Number.POSITIVE_INFINITY),
      fc.double({ min: -1000, max: 1000, noNaN: true }),
    );
    const day = fc.record({ skip: fc.constantFrom(1, 1, 1, 2, 90), permeability: odd, filtrateM3: odd, cartridgeDpKpa: odd, fluxLmh: odd });
    const facts = fc.record({ permeabilityLimitFraction: fc.constantFrom(0.7, 0, -1, 3), dailyLoadM3: odd, areaM2: fc.constantFrom(200, 1e-9, null) });
    fc.assert(
      fc.property(fc.array(day, { maxLength: 80 }), facts, fc.integer({ min: 0, max: 300 }), (rows, given, cleanedAfter) => {
        let at = FIRST;
        const days = rows.map(({ skip, ...row }) => {
          at = dayPlus(at, skip);
          return { day: at, ...row };
        });
        const cleans = [dayPlus(FIRST, cleanedAfter)].filter((clean) => clean <= at);
        const membranes = learnMembranes([taughtBy({ unit: 'b', areaM2: 200, days, cleans, changes: [] })], new Date(0));
        const outlooks = outlooksOf(known(given), new Date(`${at}T12:00:00Z`), days, cleans, [set(FIRST)], {
          fleets: new Map(),
          membranes,
          stretchFor: () => 1,
        });
        for (const { reason, metByDay, shareBeyond, p10Days, p50Days, p90Days, path } of outlooks) {
          expect(reason).not.toMatch(/NaN|Infinity|undefined|null/);
          for (const number of [...metByDay, shareBeyond, p10Days, p50Days, p90Days, ...path.flatMap(({ low, mid, high }) => [low, mid, high])])
            expect(number === null || Number.isFinite(number)).toBe(true);
        }
      }),
      { numRuns: 40 },
    );
  });
});
