import { expect, test } from '@jest/globals';
import fc from 'fast-check';
import { averageAfter } from './moving-average.js';

const M = 1_000_000n;
const whole = (most: number) => fc.bigInt({ min: 1n, max: BigInt(most) }).map((value) => value * M);

test('is weighed by what is held and what came', () => {
  expect(averageAfter({ quantity: 100n * M, average: 10n * M }, { quantity: 50n * M, unitCost: 13n * M })).toBe(11n * M);
});

test('a receipt that is taken back leaves the average that was before', () => {
  fc.assert(
    fc.property(whole(500), whole(90), whole(500), whole(90), (held, average, came, unitCost) => {
      const after = averageAfter({ quantity: held, average }, { quantity: came, unitCost });
      const back = averageAfter({ quantity: held + came, average: after }, { quantity: -came, unitCost });
      const off = back > average ? back - average : average - back;
      expect(off <= (held + came) / held + 1n).toBe(true);
    }),
    { numRuns: 100 },
  );
});

test('lies between what was held at and what was paid', () => {
  fc.assert(
    fc.property(whole(500), whole(90), whole(500), whole(90), (held, average, came, unitCost) => {
      const after = averageAfter({ quantity: held, average }, { quantity: came, unitCost });
      const [low, high] = average < unitCost ? [average, unitCost] : [unitCost, average];
      expect(after >= low && after <= high).toBe(true);
    }),
    { numRuns: 100 },
  );
});

test('stays where a receipt is taken back of which nothing is left', () => {
  expect(averageAfter({ quantity: 5n * M, average: 3n * M }, { quantity: -5n * M, unitCost: 2n * M })).toBe(3n * M);
});
