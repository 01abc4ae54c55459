import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import type { Course, EarlierLife } from './course.js';
import { leftByElasticity } from './elasticity.js';
import { askFleet, fleetOf, learnCombinations, learnFleet } from './fleet.js';
import { lifePrior } from './life-prior.js';
import { orderTells } from './members.js';

/** A level that starts at 0.2 of the limit and meets it at `life`, as the fourth power of the clock, with a ripple. */
function courseTo(life: number, until = life, samples = 80): Course {
  const clock = Array.from({ length: samples }, (_, i) => ((i + 1) * until) / samples);
  return { clock, level: clock.map((at, i) => 0.2 + 0.8 * (at / life) ** 4 + 0.003 * Math.sin(1.7 * i)) };
}

const lifeOf = (life: number, order: number, more: Partial<EarlierLife> = {}): EarlierLife => ({
  key: `life ${order}`,
  condition: 'inlet',
  group: 'inlet',
  life,
  ended: 'limit',
  order,
  lnStrength: null,
  course: courseTo(life),
  ...more,
});

const FLEET = [96, 104, 99, 107, 93, 101].map((life, order) => lifeOf(life, order));
const ASKED = { condition: 'inlet', group: 'inlet', lnStrength: null, order: 6 };
const ASK = askFleet(learnFleet(FLEET), ASKED, courseTo(100));

describe('what is left of a filter that clogs', () => {
  test.each([30, 50, 70, 90])('after %d of about 100 comes near to what is left, with a range that holds it', (now) => {
    const left = ASK(now);
    expect(Math.abs((left?.p50 ?? NaN) / (100 - now) - 1)).toBeLessThan(0.15);
    expect((left?.p10 ?? NaN) <= 100 - now && 100 - now <= (left?.p90 ?? NaN)).toBe(true);
  });

  test('says the same from what was learned elsewhere and came as plain data', () => {
    const elsewhere = fleetOf(FLEET, structuredClone(learnCombinations(FLEET)));
    const unseen = { ...ASKED, condition: 'never seen' };
    expect(askFleet(elsewhere, ASKED, courseTo(100))(60)).toEqual(ASK(60));
    expect(askFleet(elsewhere, unseen, courseTo(100))(60)).toEqual(askFleet(learnFleet(FLEET), unseen, courseTo(100))(60));
  });

  test('a filter that clogs sooner than the others is seen to, as its level rises', () => {
    const [early, usual] = [askFleet(learnFleet(FLEET), ASKED, courseTo(85)), ASK];
    expect(early(75)?.p50 ?? NaN).toBeLessThan(usual(75)?.p50 ?? NaN);
    expect(Math.abs((early(75)?.p50 ?? NaN) - 10)).toBeLessThan(5);
  });

  test('goes by what had been read by then: what comes later changes nothing', () => {
    const { clock, level } = courseTo(100);
    const otherwise = { clock, level: level.map((value, i) => ((clock[i] ?? 0) > 60 ? 0.9 : value)) };
    expect(askFleet(learnFleet(FLEET), ASKED, otherwise)(60)).toEqual(ASK(60));
  });

  test('lives that were cut off make a life longer than if they had ended there', () => {
    const cut = FLEET.map((life, i) => (i < 3 ? { ...life, life: 60, ended: 'censored' as const, course: courseTo(life.life, 60) } : life));
    const ended = cut.map((life) => ({ ...life, ended: 'limit' as const }));
    const centre = (lives: readonly EarlierLife[]) => lifePrior(lives, ASKED, () => 1)?.lnCentre ?? NaN;
    expect(centre(cut)).toBeGreaterThan(centre(ended));
    expect(centre(cut)).toBeGreaterThan(Math.log(90));
  });

  test('neighbours count more only where lives drift', () => {
    expect(orderTells(FLEET)).toBe(false);
    expect(orderTells([60, 64, 70, 77, 84, 92, 101, 110].map((life, order) => lifeOf(life, order)))).toBe(true);
  });

  test('the units of the clock change nothing but the unit of what is left', () => {
    fc.assert(
      fc.property(fc.integer({ min: -5, max: 12 }), fc.integer({ min: 20, max: 95 }), (power, now) => {
        // A power of two rounds nothing, so that no sample slips over the edge of a window.
        const unit = 2 ** power;
        const scaled = (course: Course) => ({ clock: course.clock.map((at) => at * unit), level: course.level });
        const lives = FLEET.map((life) => ({ ...life, life: life.life * unit, course: scaled(life.course) }));
        const [plain, inUnit] = [ASK(now), askFleet(learnFleet(lives), ASKED, scaled(courseTo(100)))(now * unit)];
        for (const end of ['p10', 'p50', 'p90'] as const) expect((inUnit?.[end] ?? NaN) / unit / (plain?.[end] ?? NaN)).toBeCloseTo(1, 3);
      }),
      { numRuns: 4 },
    );
  });
});

describe('a filter without earlier lives', () => {
  test('a level that does not tell yet leaves even odds to run as long again, and a wide range', () => {
    const { p10, p50, p90 } = leftByElasticity({ clock: [], level: [] }, null, 50);
    expect(p50).toBeGreaterThan(40);
    expect(p50).toBeLessThan(60);
    expect(p90 / p10).toBeGreaterThan(10);
  });

  test('comes nearer as its level climbs', () => {
    const course = courseTo(100);
    const off = (now: number) => Math.abs(Math.log(leftByElasticity(course, null, now).p50 / (100 - now)));
    expect(off(90)).toBeLessThan(0.5);
    expect(leftByElasticity(course, null, 90).p50).toBeLessThan(leftByElasticity(course, null, 60).p50);
  });
});

describe('odd input', () => {
  const even = (level: number, count = 40): Course => ({
    clock: Array.from({ length: count }, (_, i) => i + 1),
    level: Array.from({ length: count }, () => level),
  });
  const courses: readonly (readonly [string, Course])[] = [
    ['a level that never moves', even(0.3)],
    ['a level of nought', even(0)],
    ['a level below nought', even(-0.2)],
    ['a single value', { clock: [5], level: [0.3] }],
    ['a gap of most of its life', { clock: [1, 2, 3, 38, 39], level: [0.2, 0.2, 0.21, 0.4, 0.41] }],
    ['a clean level above the limit', even(1.4)],
  ];

  test.each(courses)('%s gives numbers, in order and above nought', (_, course) => {
    for (const left of [askFleet(learnFleet(FLEET), ASKED, course)(40), leftByElasticity(course, null, 40)]) {
      const ends = [left?.p10, left?.p50, left?.p90].map((value) => value ?? NaN);
      expect(ends.every((value) => Number.isFinite(value) && value > 0)).toBe(true);
      expect(ends).toEqual([...ends].sort((a, b) => a - b));
    }
  });

  test('a life of which nothing was read yet is not forecast from its signal', () => {
    expect(askFleet(learnFleet(FLEET), ASKED, { clock: [], level: [] })(40)).toBeNull();
    expect(askFleet(learnFleet(FLEET), ASKED, { clock: [60], level: [0.5] })(40)).toBeNull();
  });

  test('nothing is learned from no lives, or from lives that never ended', () => {
    expect(askFleet(learnFleet([]), ASKED, courseTo(100))(50)).toBeNull();
    expect(lifePrior([], ASKED, () => 1)).toBeNull();
    expect(lifePrior([lifeOf(60, 0, { ended: 'censored' })], ASKED, () => 1)).toBeNull();
  });

  test('a limit below the clean value leaves the signal out: what it says is what no signal says', () => {
    expect(leftByElasticity(even(1.4), null, 40)).toEqual(leftByElasticity({ clock: [], level: [] }, null, 40));
  });
});
