import { describe, expect, test } from '@jest/globals';
import { dayPlus, daysBetween } from '../../shared/day.js';
import { cartridgeOutlook } from './cartridge-outlook.js';
import { learnFleet } from './clogging/fleet.js';
import { setCourse } from './clogging/set-course.js';
import { lifeOfKind } from './lives/life-of-kind.js';
import { lifeOutlook } from './lives/life-outlook.js';
import type { Outlook } from './outlook.js';
import { EPOCH } from './permeability/level-runs.js';
import { membraneOutlook } from './permeability/membrane-outlook.js';
import { metByGrid } from './waiting/met-by-grid.js';
import { waitingCost } from './waiting/waiting-cost.js';

const FIRST = '2026-01-01';
const ORIGIN = new Date('2026-03-02T12:00:00Z');

interface Given {
  readonly value: (at: number) => number;
  readonly loadOf?: (at: number) => number;
  readonly isKept?: (at: number) => boolean;
  readonly limit?: number;
  readonly days?: number;
}

/** Sixty days of a set, by what is odd about them. */
function cartridges({ value, loadOf = (at) => 200 * at, isKept = () => true, limit = 150, days = 60 }: Given): Outlook {
  const all = Array.from({ length: days }, (_, at) => ({ day: dayPlus(FIRST, at), loadM3: loadOf(at + 1), dpKpa: value(at) })).filter((_, at) => isKept(at));
  const record = all.map(({ day, dpKpa }, at) => ({
    day,
    filtrateM3: (all[at]?.loadM3 ?? 0) - (all[at - 1]?.loadM3 ?? 0),
    permeability: null,
    cartridgeDpKpa: dpKpa,
  }));
  const course = setCourse(record, { fittedOn: FIRST, removedOn: null, cartridges: 1, limitKpa: limit }) ?? { clock: [], level: [] };
  return cartridgeOutlook({
    points: all,
    limitKpa: limit,
    earlierLives: [{ loadM3: 14_000, ended: 'limit' }],
    dailyLoad: { meanM3: 200, sdM3: 20, days: 28 },
    origin: ORIGIN,
    timeZone: 'UTC',
    fleet: { fleet: FLEET, own: [], positionId: 'p', itemId: 'i', place: 0, cartridges: 1, course },
  });
}

const rising = (life: number) => (at: number) => 30 + 120 * ((200 * (at + 1)) / life) ** 3;
const FLEET = learnFleet(
  [12_000, 13_000, 14_500, 15_000].map((life, order) => {
    const count = Math.floor(life / 200);
    const clock = Array.from({ length: count }, (_, at) => 200 * (at + 1));
    return {
      key: String(order),
      condition: String(order % 2),
      group: 'i',
      order,
      lnStrength: null,
      life,
      ended: 'limit' as const,
      course: { clock, level: clock.map((_, at) => rising(life)(at) / 150) },
    };
  }),
);

function membranes({ value, loadOf = (at) => 1.2 * at, isKept = () => true, limit = 140, days = 60 }: Given): Outlook {
  const points = Array.from({ length: days }, (_, at) => ({ dayNo: daysBetween(EPOCH, FIRST) + at, clock: loadOf(at), value: value(at) })).filter((_, at) =>
    isKept(at),
  );
  return membraneOutlook({
    run: { unit: 'a', points },
    limitLmhBar: limit,
    dailyLoad: { meanM3PerM2: 1.2, days: 28 },
    own: [],
    fleet: null,
    origin: ORIGIN,
    timeZone: 'UTC',
  });
}

/** No outcome is without a number where it promises one, and every one has a sentence. */
function isStated(outlook: Outlook): Outlook['kind'] {
  expect(outlook.reason.text.length).toBeGreaterThan(20);
  expect(outlook.reason.text).not.toMatch(/NaN|Infinity|undefined|null/);
  if (outlook.kind === 'outlook') {
    const { metByDay, shareBeyond, p10Days, p50Days, p90Days, path } = outlook;
    for (const number of [...metByDay, shareBeyond, ...path.flatMap(({ low, mid, high }) => [low, mid, high])]) expect(Number.isFinite(number)).toBe(true);
    for (const days of [p10Days, p50Days, p90Days]) expect(days === null || Number.isFinite(days)).toBe(true);
    expect(metByDay.every((share, at) => share >= (metByDay[at - 1] ?? 0) - 1e-9 && share <= 1)).toBe(true);
  }
  return outlook.kind;
}

const fallingBy = (share: number) => (at: number) => 200 * (1 - share) ** at;

describe('a record of readings that cannot be right', () => {
  test.each([
    ['constant', { value: () => 40 }],
    ['negative', { value: () => -20 }],
    ['nought', { value: () => 0 }],
    ['one day long', { value: () => 40, days: 1 }],
    ['empty', { value: () => 40, days: 0 }],
    ['interrupted for a month', { value: rising(20_000), isKept: (at: number) => at < 12 || at > 45 }],
    ['of a counter that jumps back', { value: rising(20_000), loadOf: (at: number) => 200 * at - (at > 30 ? 3000 : 0) }],
    ['of a counter that jumps ahead', { value: rising(20_000), loadOf: (at: number) => 200 * at + (at > 30 ? 1e6 : 0) }],
    ['huge', { value: () => 1e9 }],
    ['wild', { value: (at: number) => (at % 2 === 0 ? 5 : 140) }],
  ] satisfies [string, Given][])('gives cartridges a stated outcome where it is %s', (_, given) => {
    expect(['outlook', 'limit-met', 'too-little-data']).toContain(isStated(cartridges(given)));
  });

  test('says that a limit is met where it lies below the clean value, or was passed', () => {
    expect(isStated(cartridges({ value: () => 40, limit: 20 }))).toBe('limit-met');
    expect(cartridges({ value: rising(9_000) })).toMatchObject({ kind: 'limit-met' });
    expect(isStated(membranes({ value: () => 120, limit: 140 }))).toBe('limit-met');
  });

  test.each([
    ['constant', { value: () => 180 }],
    ['one day long', { value: () => 180, days: 1 }],
    ['empty', { value: () => 180, days: 0 }],
    ['interrupted for a month', { value: fallingBy(0.004), isKept: (at: number) => at < 12 || at > 45 }],
    ['of a load that jumps back', { value: fallingBy(0.004), loadOf: (at: number) => 1.2 * at - (at > 30 ? 20 : 0) }],
    ['of a load that stands still', { value: fallingBy(0.004), loadOf: () => 5 }],
    ['rising', { value: fallingBy(-0.004) }],
    ['wild', { value: (at: number) => (at % 2 === 0 ? 150 : 400) }],
  ] satisfies [string, Given][])('gives membranes a stated outcome where it is %s', (_, given) => {
    expect(['outlook', 'limit-met', 'too-little-data']).toContain(isStated(membranes(given)));
  });
});

describe('a part whose life cannot be right', () => {
  const fleet = lifeOfKind([300, 400, 500, 350].map((life) => ({ life, failed: true })));
  const partOf = (age: number, mean: number | null) =>
    lifeOutlook({
      kind: 'seal',
      clocks: [{ clock: 'days', age, use: mean === null ? null : { mean, sd: 0, days: 60 }, fleet }],
      rule: { clock: 'days', interval: 365 },
      originDay: FIRST,
    });

  test('is forecast from its age, whatever that is, or says that too little is known', () => {
    expect(partOf(1e6, 1).kind).toBe('outlook');
    expect(partOf(0, 1).kind).toBe('outlook');
    for (const outlook of [partOf(Number.NaN, 1), partOf(100, null), partOf(100, 0)]) {
      expect(outlook.kind).toBe('too-little-data');
      expect(outlook.text).toContain('By the rule, not by record');
      expect(outlook.text).not.toMatch(/NaN|Infinity/);
    }
  });

  test('teaches nothing where lives are nought, negative or no numbers', () => {
    expect(lifeOfKind([0, -4, Number.NaN, Number.POSITIVE_INFINITY].map((life) => ({ life, failed: true })))).toEqual({
      kind: 'too-few',
      lives: 0,
      failures: 0,
      need: 3,
    });
  });
});

describe('prices that are missing', () => {
  test('are named, and nothing is made up for them', () => {
    const bare = { met: metByGrid([0.5]), ageDays: -10, dailyVolumeM3: null, excessKpa: null, lostShare: null };
    const cost = waitingCost({ ...bare, prices: { renewal: 100, unplanned: null, energyKwh: null, waterM3: null } });
    expect(cost).toEqual({ kind: 'prices-missing', missing: ['what it costs more to come unplanned'] });
    const part = waitingCost({ ...bare, prices: { renewal: 100, unplanned: 50, energyKwh: null, waterM3: null } });
    expect(part).toMatchObject({ kind: 'waiting', notCounted: ['energy for higher pressure', 'lost production'] });
    if (part.kind === 'waiting') expect(part.points.every(({ extra }) => Number.isFinite(extra))).toBe(true);
  });
});
