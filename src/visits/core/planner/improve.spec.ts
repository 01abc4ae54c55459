import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { checkRoutes } from '../../../evaluate/vrptw/check.js';
import { problemOf, type SolomonInstance } from '../../../evaluate/vrptw/solomon.js';
import { improve } from './improve.js';

const afterSteps = (most: number) => (steps: number) => steps / most;

/** Customers of a small problem, all within reach of the depot on their own. */
const instances = fc
  .array(
    fc.record({
      x: fc.integer({ min: 0, max: 50 }),
      y: fc.integer({ min: 0, max: 50 }),
      ready: fc.integer({ min: 80, max: 300 }),
      width: fc.integer({ min: 10, max: 120 }),
    }),
    {
      minLength: 1,
      maxLength: 12,
    },
  )
  .map(
    (rows): SolomonInstance => ({
      name: 'drawn',
      vehicles: 12,
      capacity: 30,
      rows: [
        { x: 25, y: 25, demand: 0, ready: 0, due: 1000, service: 0 },
        ...rows.map(({ x, y, ready, width }) => ({ x, y, demand: 10, ready, due: ready + width, service: 10 })),
      ],
    }),
  );

/** The shortest tours by trying every order and every way to cut it into routes. */
function shortest(instance: SolomonInstance): number {
  const customers = instance.rows.map((_, at) => at).slice(1);
  let best = Number.POSITIVE_INFINITY;
  const place = (left: readonly number[], routes: readonly (readonly number[])[]): void => {
    if (left.length === 0) {
      const checked = checkRoutes(instance, routes, false);
      if (checked.feasible && checked.distance < best) best = checked.distance;
      return;
    }
    for (const customer of left) {
      const rest = left.filter((other) => other !== customer);
      const last = routes.at(-1);
      if (last !== undefined) place(rest, [...routes.slice(0, -1), [...last, customer]]);
      // Routes by their first customer: the same routes in another order are not tried again.
      if (last === undefined || customer > (last[0] ?? 0)) place(rest, [...routes, [customer]]);
    }
  };
  place(customers, []);
  return best;
}

const toursOf = (plan: ReturnType<typeof improve>) => plan.routes.filter((route) => route.length > 0).map((route) => route.map((visit) => visit + 1));

describe('the search for tours', () => {
  test('keeps windows and loads from the first plan on', () => {
    fc.assert(
      fc.property(instances, fc.integer({ min: 0, max: 200 }), (instance, steps) => {
        const plan = improve(problemOf(instance, false), 1, afterSteps(steps + 1));
        const checked = checkRoutes(instance, toursOf(plan), false);
        expect(checked.why).toBe('');
        expect(plan.cost).toBeCloseTo(checked.distance, 6);
      }),
      { numRuns: 30 },
    );
  });

  test('finds the shortest tours of problems that are small enough to try everything', () => {
    fc.assert(
      fc.property(
        instances.filter(({ rows }) => rows.length <= 6),
        (instance) => {
          const plan = improve(problemOf(instance, false), 1, afterSteps(500));
          expect(plan.cost).toBeCloseTo(shortest(instance), 6);
        },
      ),
      { numRuns: 15 },
    );
  });

  test('makes the same plan from the same seed and number of steps', () => {
    const [instance] = fc.sample(instances, { numRuns: 1, seed: 3 });
    const plan = (seed: number) => improve(problemOf(instance as SolomonInstance, false), seed, afterSteps(300)).routes;
    expect(plan(7)).toEqual(plan(7));
  });

  test('leaves out what no window lets in, and says so', () => {
    const instance: SolomonInstance = {
      name: 'one too far',
      vehicles: 1,
      capacity: 30,
      rows: [
        { x: 0, y: 0, demand: 0, ready: 0, due: 100, service: 0 },
        { x: 10, y: 0, demand: 1, ready: 0, due: 100, service: 0 },
        { x: 80, y: 0, demand: 1, ready: 0, due: 100, service: 0 },
      ],
    };
    expect(improve(problemOf(instance, false), 1, afterSteps(50))).toMatchObject({ routes: [[0]], unassigned: [1] });
  });
});
