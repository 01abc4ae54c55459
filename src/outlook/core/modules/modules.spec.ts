import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { lifeOfKind } from '../lives/life-of-kind.js';
import { earliestOf, firstOf } from './earliest-of.js';
import { type ModuleInUse, type ModuleOutlook, moduleOutlook } from './module-outlook.js';
import { oxidantOfModule } from './oxidant-of-module.js';
import { repairGrowth, repairsWithin, sumOfLogs } from './repair-growth.js';
import { repairsOfModule } from './repairs-of-module.js';

const LIVES = lifeOfKind([...[2100, 2500, 2900, 3300].map((life) => ({ life, failed: true })), ...[700, 900].map((life) => ({ life, failed: false }))]);

const closedAt = (ages: readonly number[], fibres = 5) => ages.map((age) => ({ age, fibres, areaLostM2: 0.05 }));

function asked(change: Partial<ModuleInUse> = {}): ModuleInUse {
  const use = { mean: 1, sd: 0, days: 60 };
  return {
    part: { kind: 'module', clocks: [{ clock: 'days', age: 1500, use, fleet: LIVES }], rule: null, originDay: '2026-11-25' },
    ageDays: 1500,
    cycles: 52_340,
    repairs: { fibres: 9000, closed: closedAt([900, 1200, 1300, 1400, 1450]) },
    contacts: { knownDays: 730, contacts: Array.from({ length: 104 }, () => 500), makerPpmH: 250_000 },
    lastTest: null,
    ...change,
  };
}

function forecastOf(change: Partial<ModuleInUse> = {}): ModuleOutlook & { readonly kind: 'outlook' } {
  const said = moduleOutlook(asked(change));
  if (said.kind !== 'outlook') throw new Error(said.text);
  return said;
}

describe('how often repairs come', () => {
  test('is drawn from the growth of a plain fit towards the usual one', () => {
    // Repair times up to 1,500 h from memory; the exponent of the power law, number of repairs over the sum of ln(1500 / time), was computed apart.
    const times = [5, 40, 43, 175, 389, 712, 747, 795, 1299, 1478];
    expect(times.length / sumOfLogs(times, 1500)).toBeCloseTo(0.537229, 5);
    const [least, , , , middle, , , , most] = repairGrowth(times, 1500).growths;
    expect(least ?? 0).toBeLessThan(middle ?? 0);
    // Drawn towards the usual growth of 1.5
    expect(middle ?? 0).toBeGreaterThan(0.537);
    expect(middle ?? 0).toBeLessThan(most ?? 0);
  });

  test('goes on at the same pace where it was even, in a span that holds its middle', () => {
    const growth = { ...repairGrowth([], 1000), events: 20, growths: [1] };
    const met = repairsWithin(growth, 20);
    expect(met(1000)).toBeGreaterThan(0.45);
    expect(met(1000)).toBeLessThan(0.6);
    // Half: as many again in as many days again, a little more for the repair that may just be on its way.
    expect(met(1000)).toBeCloseTo(1 - Array.from({ length: 20 }, (_, k) => negativeBinomial(k, 20.5)).reduce((sum, one) => sum + one, 0), 10);
  });

  test('never falls with the days, and stays a probability', () => {
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: 1, max: 999 }), { maxLength: 12 }),
        fc.integer({ min: 1, max: 40 }),
        fc.nat(2000),
        fc.nat(2000),
        (ages, further, one, other) => {
          const met = repairsWithin(repairGrowth(ages, 1000), further);
          const [sooner, later] = [met(Math.min(one, other)), met(Math.max(one, other))];
          expect(sooner).toBeGreaterThanOrEqual(0);
          expect(later).toBeLessThanOrEqual(1);
          expect(later).toBeGreaterThanOrEqual(sooner - 1e-12);
        },
      ),
      { numRuns: 60 },
    );
  });
});

describe('the closed fibres of a module', () => {
  const met = (said: ReturnType<typeof repairsOfModule>) => (said.kind === 'known' ? said.met(365) : Number.NaN);

  test('come to their limit sooner where more were closed, and where the last came close together', () => {
    const few = repairsOfModule({ age: 1500, fibres: 9000, closed: closedAt([300, 700, 1100]) });
    const many = repairsOfModule({ age: 1500, fibres: 9000, closed: closedAt([300, 500, 700, 900, 1100, 1300], 12) });
    const growing = repairsOfModule({ age: 1500, fibres: 9000, closed: closedAt([1100, 1250, 1350, 1400, 1450, 1490], 12) });
    expect(met(few)).toBeLessThan(met(many));
    expect(met(many)).toBeLessThan(met(growing));
  });

  test('have met it from one in a hundred on, and say nothing of when without a number of fibres or a second repair', () => {
    expect(repairsOfModule({ age: 1500, fibres: 900, closed: closedAt([100, 200]) })).toMatchObject({
      kind: 'met',
      text: '10 of 900 fibres closed in 2 repairs, 0.1 m2 of its area, which is not below 9 closed fibres, one in a hundred, from which a module is replaced (common practice).',
    });
    expect(repairsOfModule({ age: 1500, fibres: null, closed: closedAt([100, 200]) }).text).toContain('how many fibres a module has is not on record');
    expect(repairsOfModule({ age: 1500, fibres: 9000, closed: closedAt([100]) }).text).toContain('too few repairs to tell');
  });
});

describe('the contact of a module with free chlorine', () => {
  // Own arithmetic: 200 mg/L for 15 min a day are 18,250 ppm h a year, four cleans of 2,000 mg/L for 4 h 32,000: 50,250, so that 250,000 are reached after 4.98 years.
  const year = [...Array.from({ length: 365 }, () => 50), ...Array.from({ length: 4 }, () => 8000)];

  test('comes to what the maker states at the pace of the record', () => {
    const said = oxidantOfModule({ age: 4 * 365, knownDays: 365, contacts: year, makerPpmH: 250_000 });
    if (said.kind !== 'known') throw new Error(said.text);
    expect(said.text).toBe(
      'About 201,000 ppm h of contact with free chlorine (369 on record, what came before the record reckoned at the same pace), 138 a day; the maker states 250,000 ppm h.',
    );
    // 49,000 are left, 356 days at 137.7 a day
    expect(said.met(355.9)).toBeCloseTo(0.5, 2);
    expect(said.usualOnly).toBe(false);
  });

  test('counts for nothing by common practice alone, and is told so', () => {
    const said = oxidantOfModule({ age: 365, knownDays: 365, contacts: year, makerPpmH: null });
    expect(said).toMatchObject({ kind: 'known', usualOnly: true });
    expect(said.text).toContain('common practice is 250,000 ppm h');
    const { contacts } = asked();
    expect(forecastOf({ contacts: { ...contacts, makerPpmH: null } }).p50Days).toBe(forecastOf({ contacts: { ...contacts, contacts: [] } }).p50Days);
  });

  test('is met where more is on record than the maker states; contacts of unknown strength count as the mean', () => {
    expect(oxidantOfModule({ age: 365, knownDays: 365, contacts: year, makerPpmH: 50_000 }).kind).toBe('met');
    expect(oxidantOfModule({ age: 365, knownDays: 365, contacts: [100, null, 300], makerPpmH: 250_000 }).text).toContain('About 600 ppm h');
    expect(oxidantOfModule({ age: 365, knownDays: 365, contacts: [null], makerPpmH: 250_000 }).kind).toBe('too-little-data');
  });
});

describe('what ends a module', () => {
  test('is the earliest of its limits, no later than any of those that count', () => {
    const { p10Days, limits } = forecastOf();
    const counted = limits.filter(({ counts }) => counts);
    expect(counted.map(({ limit }) => limit)).toEqual(['age', 'repairs', 'oxidant']);
    for (const one of counted) expect(p10Days ?? Number.POSITIVE_INFINITY).toBeLessThanOrEqual((one.p10Days ?? Number.POSITIVE_INFINITY) + 0.01);
    expect(counted.reduce((sum, { first }) => sum + first, 0)).toBeCloseTo(1, 9);
  });

  test('is told with which comes first', () => {
    const soon = forecastOf({ contacts: { knownDays: 730, contacts: Array.from({ length: 730 }, () => 160), makerPpmH: 250_000 } });
    expect(soon.text).toMatch(
      /^This module has served 4\.1 years and 52,300 cycles; going by its age, its closed fibres and its contact with free chlorine its end is likely reached between .+ What comes first is its contact with free chlorine, in \d+ of 10 cases\.$/,
    );
  });

  test('goes by age alone where nothing else is on record, and by nothing where not even that is', () => {
    const bare = { repairs: { fibres: null, closed: [] }, contacts: { knownDays: 0, contacts: [], makerPpmH: null } };
    expect(forecastOf(bare).text).toContain('going by its age alone');
    const { part } = asked();
    const nothing = moduleOutlook(
      asked({ ...bare, part: { ...part, clocks: [{ clock: 'days', age: 1500, use: null, fleet: { kind: 'too-few', lives: 2, failures: 0, need: 3 } }] } }),
    );
    expect(nothing).toMatchObject({ kind: 'too-little-data', limits: [{ kind: 'too-little-data' }, { kind: 'too-little-data' }, { kind: 'too-little-data' }] });
    expect(nothing.text).toContain('Too few such parts have failed in the fleet');
  });

  test('splits what comes first by the days on which limits are met', () => {
    expect(earliestOf([])(10)).toBe(0);
    const [one, other] = firstOf([(days) => Math.min(1, days / 100), (days) => Math.min(1, days / 100)]);
    expect(one).toBeCloseTo(0.5, 9);
    expect(other).toBeCloseTo(0.5, 9);
    expect(firstOf([() => 0, () => 0])).toEqual([0, 0]);
  });
});

/** By its recursion, with odds of 1. */
function negativeBinomial(count: number, shape: number): number {
  let term = 2 ** -shape;
  for (let k = 0; k < count; k++) term *= ((shape + k) / (k + 1)) * 0.5;
  return term;
}
