import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { fitCatalogue } from '../demand/catalogue/fit-catalogue.js';
import { needUntil } from '../demand/need-until.js';
import { learnRecord } from '../demand/outlooks/learn-record.js';
import { shortfall } from '../demand/pmf/pmf.js';
import type { Demand, FittedPart, PlannedNeed } from '../demand/types.js';
import { leadTimeOf } from '../orders/lead-time.js';
import { ShortfallSteps } from '../policy/shortfall-steps.js';
import { dayOfNeed, needPath, PATH_DAYS, willExpire } from './need-path.js';
import { type LineAsked, reorderLine } from './reorder-line.js';
import { shareSurplus } from './share-surplus.js';
import { stockLevels } from './stock-levels.js';
import { tankFills } from './tank-fills.js';

const FIT = fitCatalogue([]);
const RECORD = learnRecord([]);
const afterDays = (days: number) => [...Array.from({ length: days }, () => 0), 1];
const planned = (about: Partial<PlannedNeed> = {}): PlannedNeed => ({ cause: 'a', quantity: 2, reserved: 0, inDays: 5, slipDays: 0, ...about });
const fitted = (about: Partial<FittedPart> = {}): FittedPart => ({
  cause: 'b',
  quantity: 4,
  water: null,
  ageDays: 0,
  stated: { p10Days: 20, p50Days: 30, p90Days: 45, daysAhead: [], metByDay: [] },
  nextLifeDays: null,
  ...about,
});
const NONE = { use: [], planned: [], fitted: [] };
const line = (about: Partial<LineAsked>) =>
  reorderLine(
    {
      sources: NONE,
      leadTime: afterDays(10),
      onHand: 0,
      reserved: 0,
      coming: 0,
      lots: [],
      alwaysKept: false,
      idleMonths: null,
      knownMonths: 24,
      service: { kind: 'fill', asked: 0.95 },
      reviewDays: 0,
      minimum: 0,
      maximum: null,
      orderCost: null,
      unitCost: null,
      ...about,
    },
    FIT,
    RECORD,
  );

describe('the need by each day', () => {
  test('is that of work on its day, of outlooks as they come true, and of the rest evenly', () => {
    const path = needPath({ planned: [planned(), planned({ inDays: -3, quantity: 1 }), planned({ reserved: 2 })], fitted: [] }, 0.1, RECORD);
    expect(path[0]).toBeCloseTo(1);
    expect(path[4]).toBeCloseTo(1.4);
    expect(path[5]).toBeCloseTo(3.5);
    const ofPart = needPath({ planned: [], fitted: [fitted()] }, 0, RECORD);
    expect(ofPart[30]).toBeGreaterThan(1.5);
    expect(ofPart[30]).toBeLessThan(2.5);
    expect(ofPart[PATH_DAYS]).toBeCloseTo(4, 2);
  });

  test('never falls', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: -5, max: 200 }), { maxLength: 6 }), fc.integer({ min: 1, max: 120 }), (days, p50Days) => {
        const part = fitted({ stated: { p10Days: null, p50Days, p90Days: null, daysAhead: [], metByDay: [] } });
        const path = needPath({ planned: days.map((inDays) => planned({ inDays })), fitted: [part] }, 0.02, RECORD);
        expect(path.every((need, day) => day === 0 || need >= (path[day - 1] ?? 0) - 1e-9)).toBe(true);
      }),
      { numRuns: 20 },
    );
  });

  test('says when it has reached so much, and what expires before', () => {
    expect(dayOfNeed([0, 1, 1, 3], 2)).toBe(3);
    expect(willExpire([{ inDays: 3, quantity: 5 }], [0, 1, 1, 3])).toBe(2);
    expect(willExpire([{ inDays: 300, quantity: 5 }], [0, 1])).toBe(0);
  });
});

describe('a line', () => {
  test('orders nothing of what nothing asks for, and tells dead stock', () => {
    expect(line({ onHand: 5 })).toMatchObject({ wanted: 0, orderInDays: null, neededInDays: null, pace: { kind: 'dead' }, levels: { point: -1 } });
    expect(line({ onHand: 5, knownMonths: 3 })).toMatchObject({ pace: { kind: 'slow' } });
    expect(line({})).toMatchObject({ wanted: 0, levels: { point: -1 } });
  });

  test('orders for work that comes before a delivery, and says when it is missing', () => {
    const { wanted, neededInDays, orderInDays, service, ifItWaits } = line({ sources: { ...NONE, planned: [planned({ inDays: 6, quantity: 3 })] }, onHand: 1 });
    expect(wanted).toBeGreaterThanOrEqual(2);
    expect({ neededInDays, orderInDays }).toEqual({ neededInDays: 6, orderInDays: 0 });
    expect(service.now.enough).toBeLessThan(0.01);
    expect(ifItWaits?.enoughLater).toBeLessThanOrEqual(ifItWaits?.enoughNow ?? 0);
  });

  test('does not count twice what is reserved for its work', () => {
    const free = line({ sources: { ...NONE, planned: [planned({ quantity: 4 })] }, onHand: 6 });
    const kept = line({ sources: { ...NONE, planned: [planned({ quantity: 4, reserved: 4 })] }, onHand: 6, reserved: 4 });
    expect(kept.position).toBe(free.position - 4);
    expect(kept.service.now.missing).toBeCloseTo(free.service.now.missing, 6);
  });

  test('never orders more because there is more', () => {
    const sources = { ...NONE, use: [0, 2, 1, 0, 3, 1, 0, 2, 1, 1, 0, 4], fitted: [fitted()] };
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 12 }), fc.constantFrom(0, 7, 30), (onHand, reviewDays) => {
        const [less, more] = [line({ sources, onHand, reviewDays, idleMonths: 0 }), line({ sources, onHand: onHand + 1, reviewDays, idleMonths: 0 })];
        expect(more.wanted).toBeLessThanOrEqual(less.wanted);
        expect(more.service.now.enough).toBeGreaterThanOrEqual(less.service.now.enough - 1e-12);
        expect(less.service.oneMore.enough).toBeCloseTo(more.service.now.enough, 12);
      }),
      { numRuns: 15 },
    );
  });

  test('keeps no less than the minimum, and no more than the maximum', () => {
    expect(line({ minimum: 2 })).toMatchObject({ levels: { point: 1, upTo: 2 }, wanted: 2 });
    const sources = { ...NONE, use: Array.from({ length: 24 }, () => 6) };
    const { levels } = line({ sources, idleMonths: 0, maximum: 4 });
    expect(levels.upTo).toBe(4);
    expect(levels.point).toBeLessThan(4);
  });

  test('leaves out what expires before it is used', () => {
    const lots = [{ inDays: 3, quantity: 5 }];
    expect(line({ sources: { ...NONE, planned: [planned({ inDays: 40 })] }, onHand: 5, lots })).toMatchObject({ expiring: 5, position: 0 });
  });
});

test('three lead times tell as much as six, to within a tenth of a piece', () => {
  const sources = { use: [0, 2, 1, 0, 3, 1, 0, 2, 1, 1, 0, 4], planned: [planned({ inDays: 20, slipDays: 7 })], fitted: [fitted()] };
  const { pmf: leadTime } = leadTimeOf(21, []);
  const [few, many] = [3, 6].map((leadTimes) => needUntil(sources, { leadTime, reviewDays: 7 }, FIT, RECORD, leadTimes)) as [Demand, Demand];
  expect(Math.abs(few.mean - many.mean)).toBeLessThan(0.1);
  for (const level of [1, 3, 5, 8]) expect(Math.abs(shortfall(few.pmf, level) - shortfall(many.pmf, level))).toBeLessThan(0.1);
});

describe('levels', () => {
  const need = Float64Array.of(0.5, 0.3, 0.2);
  const asked = { reviewDays: 0, minimum: 0, maximum: null, orderCost: null, unitCost: null } as const;

  test('rise with the service that is asked for', () => {
    fc.assert(
      fc.property(
        fc.constantFrom('fill' as const, 'jobs' as const),
        fc.constantFrom(0, 14),
        fc.double({ min: 0.5, max: 0.98, noNaN: true }),
        (kind, reviewDays, share) => {
          const point = (level: number) => stockLevels(need, need, 6, { ...asked, reviewDays, service: { kind, asked: level } }).point;
          expect(point(share + 0.015)).toBeGreaterThanOrEqual(point(share));
        },
      ),
      { numRuns: 30 },
    );
  });

  test('follow what a missing piece costs, and order the economic quantity', () => {
    const cost = (shortCost: number) => stockLevels(need, need, 60, { ...asked, unitCost: 50, orderCost: 20, service: { kind: 'cost', shortCost } });
    expect(cost(500).point).toBeGreaterThanOrEqual(cost(1).point);
    const { point, upTo } = stockLevels(need, need, 60, { ...asked, unitCost: 50, orderCost: 20, service: { kind: 'fill', asked: 0.9 } });
    // sqrt(2 x 20 x 60 / (50 x 0.2)) = 15.5
    expect(upTo - point).toBe(15);
  });
});

test('steps of the shortfall are the shortfall of each level', () => {
  const need = [0.2, 0, 0.5, 0.1, 0.2];
  fc.assert(
    fc.property(fc.integer({ min: -6, max: 3 }), fc.integer({ min: 0, max: 8 }), (from, up) => {
      const steps = new ShortfallSteps(need, from);
      for (let step = 0; step < up; step++) steps.up();
      expect(steps.short).toBeCloseTo(shortfall(need, from + up), 12);
    }),
    { numRuns: 30 },
  );
});

test('what lies too much elsewhere is given once', () => {
  const shared = shareSurplus([
    { placeId: 'a', wanted: 3, surplus: 0 },
    { placeId: 'b', wanted: 5, surplus: 0 },
    { placeId: 'c', wanted: 0, surplus: 6 },
  ]);
  expect(Object.fromEntries(shared)).toEqual({ b: [{ fromPlaceId: 'c', quantity: 5 }], a: [{ fromPlaceId: 'c', quantity: 1 }] });
});

test('a tank that uses nothing is never filled', () => {
  expect(tankFills({ dailyUseL: 0, usableL: 1000, runOutInDays: 1, litresPerUnit: 1 })).toEqual([]);
});
