import { describe, expect, test } from '@jest/globals';
import { convolvedTimes } from '../demand/pmf/convolve.js';
import { poisson } from '../demand/pmf/negative-binomial.js';
import { atMost } from '../demand/pmf/pmf.js';
import { bestLevel, costOfLevel } from './holding-cost.js';
import { jointOrders } from './joint-orders.js';
import { economicQuantity, economicQuantityOwed } from './order-quantity.js';
import { cheapestOrderUpTo } from './order-up-to.js';
import { cheapestReorder, costOfReorder, fillOfReorder, reorderPointFor } from './reorder-point.js';
import { fillOfPeriodic, jobFillOf, levelForFill, serviceOf } from './service.js';

describe('the cheapest (s, S)', () => {
  // Table of Zheng and Federgruen 1991, as the tests of the library stockpyl print it: Poisson need, K 64, h 1, p 9.
  test.each([
    [10, 6, 40, 35.022],
    [15, 10, 49, 42.698],
    [20, 14, 62, 49.173],
    [21, 15, 65, 50.406],
    [22, 16, 68, 51.632],
    [23, 17, 52, 52.757],
    [24, 18, 54, 53.518],
    [25, 19, 56, 54.262],
    [30, 23, 66, 57.819],
    [35, 28, 77, 61.215],
    [40, 33, 87, 64.512],
    [45, 37, 97, 67.776],
    [50, 42, 108, 70.975],
    [51, 43, 110, 71.611],
    [52, 44, 112, 72.246],
    [55, 47, 118, 74.149],
    [59, 51, 126, 76.679],
    [60, 52, 129, 77.306],
    [61, 52, 131, 77.929],
    [63, 54, 73, 78.287],
    [64, 55, 74, 78.402],
    [65, 56, 75, 78.518],
    [70, 62, 81, 79.037],
    [75, 67, 86, 79.554],
  ])('for a mean of %p is (%p, %p) at %p', (mean, point, level, cost) => {
    const found = cheapestOrderUpTo(poisson(mean), 1, 9, 64);
    expect([found.point, found.level]).toEqual([point, level]);
    expect(found.cost).toBeCloseTo(cost, 3);
  });

  test('of example 4.7 of Snyder and Shen is (4, 10) at 8.034', () => {
    const found = cheapestOrderUpTo(poisson(6), 1, 4, 5);
    expect([found.point, found.level]).toEqual([4, 10]);
    expect(found.cost).toBeCloseTo(8.0341, 3);
  });
});

describe('the cheapest (r, Q)', () => {
  test('of Snyder and Shen, example 5.8 and problem 5.2', () => {
    const example = cheapestReorder(poisson(3), { perOrder: 100, held: 20, short: 150, need: 1.5 });
    expect([example.point, example.quantity]).toEqual([3, 5]);
    expect(example.cost).toBeCloseTo(107.9236, 3);
    expect(costOfReorder(poisson(3), 8, 12, { perOrder: 100, held: 20, short: 150, need: 1.5 })).toBeCloseTo(242.5282, 3);
    const problem = cheapestReorder(poisson(6), { perOrder: 4, held: 4, short: 28, need: 12 });
    expect([problem.point, problem.quantity]).toEqual([6, 7]);
    expect(problem.cost).toBeCloseTo(28.2413, 3);
    expect(costOfReorder(poisson(6), 3, 9, { perOrder: 4, held: 4, short: 28, need: 12 })).toBeCloseTo(34.2642, 3);
  });

  test('serves more from a higher order point, and the point asked for serves as asked', () => {
    const need = poisson(2.5);
    const fills = [0, 1, 2, 3, 4].map((point) => fillOfReorder(need, point, 3));
    expect(fills).toEqual([...fills].sort((a, b) => a - b));
    const point = reorderPointFor(need, 3, 0.95);
    expect(fillOfReorder(need, point, 3)).toBeGreaterThanOrEqual(0.95);
    expect(fillOfReorder(need, point - 1, 3)).toBeLessThan(0.95);
  });
});

describe('the newsvendor', () => {
  test('of Snyder and Shen, example 4.7 and problem 4.8a', () => {
    expect(bestLevel(poisson(6), 1, 4)).toBe(8);
    expect(costOfLevel(poisson(6), 8, 1, 4)).toBeCloseTo(3.570107, 4);
    expect(costOfLevel(poisson(6), 5, 1, 4)).toBeCloseTo(6.590296, 4);
    expect(bestLevel(poisson(18), 200, 270)).toBe(19);
    expect(costOfLevel(poisson(18), 19, 200, 270)).toBeCloseTo(786.0884, 2);
  });
});

describe('order quantities', () => {
  test('of Snyder and Shen, problems 3.1 and 3.2b', () => {
    const { quantity, cost } = economicQuantity({ perOrder: 2250, perPieceHeld: 275, need: 182_500 });
    expect(quantity).toBeCloseTo(1728.109845, 5);
    expect(cost).toBeCloseTo(475_230.2074, 3);
    const owed = economicQuantityOwed({ perOrder: 40, perPieceHeld: 40.05, need: 2080 }, 60);
    expect(owed.quantity).toBeCloseTo(83.2354481, 6);
    expect(owed.owedShare).toBeCloseTo(0.4002999, 6);
    expect(owed.cost).toBeCloseTo(1999.148244, 5);
  });

  test('together, of Silver 1976, and of Silver, Pyke and Peterson 1998, page 428', () => {
    const held = 0.2;
    const silver = jointOrders(
      10,
      [
        [1.87, 1736],
        [5.27, 656],
        [7.94, 558],
        [8.19, 170],
        [8.87, 142],
      ].map(([perLine = 0, need = 0]) => ({ perLine, perPieceHeld: held, need })),
    );
    expect(silver?.multiples).toEqual([1, 1, 1, 3, 3]);
    expect(silver?.every).toBeCloseTo(0.2813771490671, 9);
    expect(silver?.cost).toBeCloseTo(218.6863203, 6);
    expect(silver?.quantities.map((one) => Number(one.toFixed(4)))).toEqual([488.4707, 184.5834, 157.0084, 143.5023, 119.8667]);
    const second = jointOrders(
      40,
      [86_000, 12_500, 1400, 3000].map((need) => ({ perLine: 15, perPieceHeld: 0.24, need })),
    );
    expect(second?.multiples).toEqual([1, 1, 4, 3]);
    expect(second?.every).toBeCloseTo(0.0761734, 7);
    expect(second?.cost).toBeCloseTo(2067.650841, 5);
  });
});

describe('service', () => {
  test('is better with one more and worse with one less', () => {
    const { now, oneMore, oneLess } = serviceOf(poisson(3), 4);
    expect(oneLess.enough < now.enough && now.enough < oneMore.enough).toBe(true);
    expect(now.missing - oneMore.missing).toBeCloseTo(1 - atMost(poisson(3), 4), 9);
  });

  test('by review does not count what is owed twice', () => {
    // Boylan and Syntetos, chapter 3: weekly need 0, 1, 4 with .5, .3, .2; two weeks of lead time and one of review.
    const week = [0.5, 0.3, 0, 0, 0.2];
    expect(fillOfPeriodic(convolvedTimes(week, 2), convolvedTimes(week, 3), 7, 1.1)).toBeCloseTo(0.88, 3);
    expect(fillOfPeriodic(convolvedTimes(week, 2), convolvedTimes(week, 3), 8, 1.1)).toBeCloseTo(0.938, 3);
  });

  test('of five parts at 95 % is 77 %', () => expect(jobFillOf([0.95, 0.95, 0.95, 0.95, 0.95])).toBeCloseTo(0.774, 3));

  test('of the least level for an asked fill is that fill at least, and of one less is not', () => {
    const [lead, both] = [poisson(4), poisson(6)];
    const level = levelForFill(lead, both, 0.95);
    expect(fillOfPeriodic(lead, both, level, 2)).toBeGreaterThanOrEqual(0.95);
    expect(fillOfPeriodic(lead, both, level - 1, 2)).toBeLessThan(0.95);
    expect(levelForFill([0.2, 0.8], [0.2, 0.8], 0.9)).toBe(1);
  });
});
