import { describe, expect, test } from '@jest/globals';
import { syntheticFleet } from '../../../evaluate/fleet-of-visits/synthetic-fleet.js';
import type { PlanInput } from '../planner/plan-input.js';
import { costByKind } from './cost-by-kind.js';
import { makePlan } from './make-plan.js';
import { pricesOf } from './plan-prices.js';

const NO_DATES = { earliestOn: null, bestOn: null, latestOn: null };

function planned(input: PlanInput, steps = 300) {
  const { plan } = makePlan(input, 1, (done) => done / steps);
  const kinds = costByKind(
    input,
    input.work.map(() => NO_DATES),
    '2026-12-01',
    plan,
  );
  return { plan, of: (kind: string) => kinds.find((each) => each.kind === kind), sum: kinds.reduce((sum, { minutes }) => sum + minutes, 0) };
}

describe('the cost of a plan by kind', () => {
  test.each([
    [0, null, undefined],
    [0.2, null, { minutes: 30, from: 690, until: 840 }],
    [0.2, { currency: 'EUR', workHour: 60, travelHour: 45, overtimeHour: 20, kilometre: 0.4, nightAway: 110 }, undefined],
    [0, { currency: 'JPY', workHour: 6000, travelHour: 9000, overtimeHour: 0, kilometre: 40, nightAway: 12_000 }, { minutes: 45, from: 660, until: 900 }],
  ])('adds up to what the search tells, with a share of %d far away, at rates %j, with breaks %j', (remote, rates, breakRule) => {
    const { night, ...prices } = pricesOf(rates);
    const fleet = syntheticFleet({ visits: 40, technicians: 3, weeks: 2, seed: 3, remote });
    // Days that cost alike: what early and late are told from is not part of a drawn fleet.
    const people = fleet.people.map((person) => ({ ...person, nightCost: night, breakRule }));
    const input = {
      ...fleet,
      prices,
      people,
      work: fleet.work.map((item) => ({ ...item, dayCost: item.dayCost.map((cost) => (Number.isFinite(cost) ? 0 : cost)) })),
    };
    const { plan, sum, of } = planned(input);
    expect(sum).toBeCloseTo(plan.cost, 4);
    expect(of('left out')?.count).toBe(plan.leftOut.length);
    if (remote > 0) expect(of('nights')?.count).toBeGreaterThan(0);
  });
});
