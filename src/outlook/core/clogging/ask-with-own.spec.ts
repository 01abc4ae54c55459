import { describe, expect, test } from '@jest/globals';
import { median } from 'd3-array';
import { dayPlus } from '../../../shared/day.js';
import { cartridgeOutlook } from '../cartridge-outlook.js';
import type { RecordDay } from '../earlier-runs.js';
import { askWithOwn } from './ask-with-own.js';
import type { EarlierLife } from './course.js';
import { learnFleet } from './fleet.js';
import { metByLeft } from './met-by-left.js';
import { setCourse } from './set-course.js';

const FITTED = '2025-01-01';
const LIMIT = 150;

/** The same draws in every run. */
function drawsOf(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4_294_967_296;
  };
}

interface Made {
  readonly life: number;
  readonly dpAt: (load: number) => number;
}

/** A place whose sets run through about the same, climb alike, and are read with an error of some per cent. */
function placeOf(seed: number): (nth: number) => Made {
  const random = drawsOf(seed);
  const [usual, exponent] = [800 + 1500 * random(), 2.5 + 2.5 * random()];
  return (nth) => {
    const own = drawsOf(1000 * seed + 17 * nth + 1);
    const life = usual * Math.exp(0.3 * (own() + own() - 1));
    return { life, dpAt: (load) => (30 + (LIMIT - 30) * (load / life) ** exponent) * (1 + 0.06 * (own() + own() - 1)) };
  };
}

const DAILY = 30;
const recordOf = ({ life, dpAt }: Made, share: number): RecordDay[] =>
  Array.from({ length: Math.floor((share * life) / DAILY) + 1 }, (_, at) => ({
    day: dayPlus(FITTED, at),
    filtrateM3: at === 0 ? 0 : DAILY,
    permeability: null,
    cartridgeDpKpa: dpAt(at * DAILY),
  }));

const run = (removedOn: string | null) => ({ fittedOn: FITTED, removedOn, cartridges: 1, limitKpa: LIMIT });

function lifeOf(seed: number, nth: number): EarlierLife {
  const made = placeOf(seed)(nth);
  const course = setCourse(recordOf(made, 1), run('2099-01-01'));
  if (course === null) throw new Error('no course');
  return { key: `${seed} ${nth}`, condition: String(seed), group: 'item', order: nth, lnStrength: null, life: course.life, ended: course.ended, course };
}

const PLACES = [1, 2, 3, 4, 5];
const FLEET = learnFleet(PLACES.flatMap((seed) => [0, 1, 2, 3].map((nth) => lifeOf(seed, nth))));

/** Errors of what is left, as shares of it, at a share of life of sets at places of the fleet. */
function errorsAt(share: number, withFleet: boolean): { error: number; isInside: boolean }[] {
  return PLACES.flatMap((seed) =>
    [4, 5, 6].map((nth) => {
      const made = placeOf(seed)(nth);
      const days = recordOf(made, share);
      const own = [0, 1, 2, 3].map((earlier) => lifeOf(seed, earlier));
      const course = setCourse(days, run(null));
      const points = days.flatMap(({ day, cartridgeDpKpa }, at) =>
        at === 0 || cartridgeDpKpa === null ? [] : [{ day, loadM3: at * DAILY, dpKpa: cartridgeDpKpa }],
      );
      const outlook = cartridgeOutlook({
        points,
        limitKpa: LIMIT,
        earlierLives: own.map(({ life, ended }) => ({ loadM3: life, ended })),
        dailyLoad: { meanM3: DAILY, sdM3: 1, days: 28 },
        origin: new Date(`${days.at(-1)?.day}T12:00:00Z`),
        timeZone: 'UTC',
        ...(withFleet && course !== null ? { fleet: { fleet: FLEET, own, positionId: String(seed), itemId: 'item', place: nth, cartridges: 1, course } } : {}),
      });
      if (outlook.kind !== 'outlook') throw new Error(outlook.reason.text);
      const left = made.life / DAILY - (days.length - 1);
      const [low, middle, high] = [outlook.p10Days ?? 0, outlook.p50Days ?? Infinity, outlook.p90Days ?? Infinity];
      return { error: Math.abs(middle - left) / left, isInside: Math.floor(low) <= left && left <= Math.ceil(high) };
    }),
  );
}

describe('a set asked of the fleet and of its own place', () => {
  test.each([0.3, 0.5, 0.7, 0.85])('is forecast no worse than from its own place alone, and inside its range, at %p of life', (share) => {
    const [fleet, alone] = [errorsAt(share, true), errorsAt(share, false)];
    const [ours, theirs] = [median(fleet, ({ error }) => error) ?? 1, median(alone, ({ error }) => error) ?? 1];
    expect(ours).toBeLessThan(1.1 * theirs);
  });

  test('has the truth in its range about as often as it says, over all shares of life', () => {
    const all = [0.3, 0.5, 0.7, 0.85].flatMap((share) => errorsAt(share, true));
    const inside = all.filter(({ isInside }) => isInside).length / all.length;
    // 15 lives: 8 in 10 of them, give or take two standard errors.
    expect(inside).toBeGreaterThan(0.6);
    expect(inside).toBeLessThan(0.97);
  });

  test('of a place that the fleet has not seen rests on the others, and says nothing of the course with too few lives', () => {
    const asked = { condition: '9', group: 'item', lnStrength: null, order: 0 };
    const { course, life } = lifeOf(9, 0);
    const said = askWithOwn(FLEET, [], asked, course, 0.5 * life);
    expect(said.lives).toBe(20);
    expect(said.left?.p50).toBeGreaterThan(0);
    const few = askWithOwn(learnFleet([lifeOf(1, 0), lifeOf(1, 1)]), [], asked, course, 0.5 * life);
    expect(few.left).toBeNull();
    expect(few.prior).not.toBeNull();
    expect(askWithOwn(learnFleet([]), [], asked, course, 100)).toEqual({ prior: null, left: null, lives: 0 });
  });

  test('counts a life that both know once', () => {
    const own = [lifeOf(1, 0), lifeOf(1, 1)];
    const { course } = lifeOf(1, 4);
    const asked = { condition: '1', group: 'item', lnStrength: null, order: 4 };
    expect(askWithOwn(FLEET, own, asked, course, 300).lives).toBe(20);
  });
});

describe('the course of a set', () => {
  const days = recordOf(placeOf(1)(0), 0.5);

  test('is not made up from a record without values, water, a limit or the day of the change', () => {
    expect(setCourse([], run(null))).toBeNull();
    expect(setCourse(days, { ...run(null), limitKpa: 0 })).toBeNull();
    expect(setCourse(days, { ...run(null), cartridges: 0 })).toBeNull();
    expect(setCourse(days, { ...run(null), fittedOn: '2024-01-01' })).toBeNull();
    expect(setCourse(days, { ...run(null), fittedOn: '2030-01-01' })).toBeNull();
    const dry = days.map((day) => ({ ...day, filtrateM3: null }));
    expect(setCourse(dry, run(null))).toBeNull();
    const negative = days.map((day) => ({ ...day, cartridgeDpKpa: -5 }));
    expect(setCourse(negative, run(null))).toBeNull();
  });

  test('keeps its load over a gap of months, and the clock never goes back', () => {
    const gap = days.filter((_, at) => at < 6 || at > 15);
    const course = setCourse(gap, run(null));
    expect(course?.clock.every((load, at) => at === 0 || load > (course.clock[at - 1] ?? 0))).toBe(true);
    const back = setCourse(
      days.map((day, at) => (at === 8 ? { ...day, filtrateM3: -500 } : day)),
      run(null),
    );
    expect(back?.clock.every((load, at) => at === 0 || load >= (back.clock[at - 1] ?? 0))).toBe(true);
  });
});

describe('what is left as a distribution', () => {
  test('meets its three quantiles and never falls, however narrow', () => {
    const met = metByLeft({ p10: 40, p50: 100, p90: 130 });
    expect(met(40)).toBeCloseTo(0.1, 9);
    expect(met(100)).toBeCloseTo(0.5, 9);
    expect(met(130)).toBeCloseTo(0.9, 9);
    const step = metByLeft({ p10: 100, p50: 100, p90: 100 });
    expect([0, 50, 200].map(step)).toEqual([0, expect.closeTo(0, 9), expect.closeTo(1, 9)]);
  });
});
