import { describe, expect, test } from '@jest/globals';
import { type BookedDip, tankBooks } from './tank-books.js';

const WEEK_MS = 7 * 86_400_000;
const FIRST = new Date('2025-01-06T08:00:00Z').getTime();

/** Repeatable normal deviates. */
function normals(seed: number): () => number {
  let state = seed;
  const uniform = () => {
    state = (state * 1_664_525 + 1_013_904_223) % 4_294_967_296;
    return (state + 0.5) / 4_294_967_296;
  };
  return () => Math.sqrt(-2 * Math.log(uniform())) * Math.cos(2 * Math.PI * uniform());
}

/** Weekly dips of a tank from which 56 L a week should go; `over` is what goes besides in a week. */
function weeks(count: number, over: (week: number) => number, normal: () => number = () => 0): BookedDip[] {
  let volumeL = 400;
  return Array.from({ length: count }, (_, week) => {
    if (week > 0) volumeL -= 56 * (1 + 0.0583 * normal()) + over(week);
    const broughtL = volumeL < 150 ? 300 : 0;
    volumeL += broughtL;
    return { at: new Date(FIRST + week * WEEK_MS), volumeL: volumeL + 3 * normal(), errorL: 3, broughtL, expectedL: week === 0 ? null : 56 };
  });
}
const firstSignal = (dips: readonly BookedDip[]) => tankBooks(dips).points.findIndex(({ signal }) => signal !== null);

describe('the books of a tank', () => {
  test('add up what went beyond what should have gone', () => {
    const { points } = tankBooks(weeks(5, () => 2));
    expect(points.map(({ cumulativeL }) => Math.round(cumulativeL))).toEqual([0, 2, 4, 6, 8]);
    expect(points[4]?.limitL).toBeCloseTo(2 * Math.sqrt(2 * 9 + 4 * 0.0034 * 56 ** 2), 6);
    expect(tankBooks([]).points).toEqual([]);
  });

  test('find a pump that gives a quarter more, with the week in which it began', () => {
    const books = tankBooks(weeks(20, (week) => (week > 8 ? 14 : 0)));
    const at = books.points.findIndex(({ signal }) => signal === 'more');
    expect(at).toBeGreaterThan(8);
    expect(at).toBeLessThan(14);
    expect(books.partedAt).toBe(8);
  });

  test('find a pump that lost its prime, on the other side', () => {
    expect(firstSignal(weeks(20, (week) => (week > 8 ? -40 : 0)))).toBeLessThan(11);
    expect(tankBooks(weeks(20, (week) => (week > 8 ? -40 : 0))).points.some(({ signal }) => signal === 'less')).toBe(true);
  });

  test('find a sudden leak at the next dip, and fall silent when it is mended', () => {
    const { points } = tankBooks(weeks(30, (week) => (week === 10 ? 60 : 0)));
    expect(points[10]?.signal).toBe('more');
    expect(points.slice(16).every(({ signal }) => signal === null)).toBe(true);
  });

  test('see one wrong dip for what it is: shared by two intervals', () => {
    const dips = weeks(30, () => 0).map((dip, week) => (week === 12 ? { ...dip, volumeL: dip.volumeL - 9 } : dip));
    expect(firstSignal(dips)).toBe(-1);
  });

  test('begin anew where the level rose by more than was brought, and where nobody knows the use', () => {
    const risen = weeks(10, () => 0).map((dip, week) => (week >= 5 ? { ...dip, volumeL: dip.volumeL + 90 } : dip));
    const { points } = tankBooks(risen);
    expect(points[5]).toMatchObject({ fits: false, cumulativeL: 0, surprise: null, signal: null });
    expect(points[6]).toMatchObject({ fits: true, signal: null });
    const unknown = weeks(6, () => 5).map((dip, week) => (week === 3 ? { ...dip, expectedL: null } : dip));
    expect(tankBooks(unknown).points.map(({ cumulativeL }) => Math.round(cumulativeL))).toEqual([0, 5, 10, 0, 5, 10]);
  });

  // 60 tanks of three years each, with the errors that the budget allows: independent surprises, and few false alarms.
  test('keep the rate of false alarms of their charts although dips are shared', () => {
    let [alarms, dips, lagged, squared] = [0, 0, 0, 0];
    for (let tank = 0; tank < 60; tank += 1) {
      const surprises = tankBooks(weeks(157, () => 0, normals(7 + tank))).points;
      alarms += surprises.filter(({ signal }) => signal !== null).length;
      for (const [at, { surprise }] of surprises.entries()) {
        if (surprise === null) continue;
        dips += 1;
        squared += surprise ** 2;
        lagged += surprise * (surprises[at - 1]?.surprise ?? 0);
      }
    }
    expect(squared / dips).toBeGreaterThan(0.85);
    expect(squared / dips).toBeLessThan(1.1);
    expect(Math.abs(lagged / squared)).toBeLessThan(0.05);
    expect(dips / alarms).toBeGreaterThan(150);
  });
});
