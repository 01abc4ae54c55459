import { describe, expect, test } from '@jest/globals';
import { type BatchToMake, makeBatch } from './batch.js';

const made = (given: Partial<BatchToMake>) =>
  makeBatch({
    chemical: 'sodium hypochlorite',
    volumeM3: 1,
    targetMgL: null,
    targetPh: null,
    targetPercent: null,
    product: { value: 125, basis: 'g/L', densityKgL: null },
    reagent: 'sodium bisulfite',
    ...given,
  });

describe('a batch for a clean', () => {
  // Computed apart; bisulfite by the field guide's table 7-2.
  test('of hypochlorite, with what takes its chlorine away', () => {
    expect(made({ targetMgL: 500 })).toMatchObject({ productL: 4, pureKg: 0.5, neutralise: [{ name: 'sodium bisulfite', kg: 0.805 }], isLowerBound: false });
  });

  test('of caustic to a pH is a lower bound', () => {
    const caustic = made({ chemical: 'sodium hydroxide', targetPh: 12, product: { value: 50, basis: 'wt %', densityKgL: null } });
    expect(caustic).toMatchObject({ isLowerBound: true, productL: expect.closeTo(0.525, 3), pureKg: expect.closeTo(0.4, 3) });
    expect(caustic.kind === 'batch' && caustic.neutralise.map(({ name }) => name)).toEqual(['citric acid', 'hydrochloric acid']);
  });

  test('of citric acid by weight, dry or dissolved', () => {
    expect(made({ chemical: 'citric acid', targetPercent: 2, product: null })).toMatchObject({
      pureKg: 20,
      productL: null,
      monohydrateKg: expect.closeTo(21.9, 1),
    });
    expect(made({ chemical: 'citric acid', targetPercent: 2, product: { value: 620, basis: 'g/L', densityKgL: null } })).toMatchObject({
      productL: expect.closeTo(32.26, 2),
    });
  });

  test('says what it still needs', () => {
    expect(made({})).toMatchObject({ kind: 'fault', field: 'targetMgL' });
    expect(made({ targetMgL: 500, product: null })).toMatchObject({ kind: 'fault', field: 'productValue' });
    expect(made({ targetMgL: 500, product: { value: 12.5, basis: 'wt %', densityKgL: 1.2 } })).toMatchObject({ kind: 'fault', field: 'productBasis' });
    expect(made({ chemical: 'hydrochloric acid', targetPh: 12 })).toMatchObject({ kind: 'fault', field: 'targetPh' });
    expect(made({ chemical: 'citric acid' })).toMatchObject({ kind: 'fault', field: 'targetPercent' });
    expect(made({ chemical: 'sodium hydroxide' })).toMatchObject({ kind: 'fault', field: 'targetPh' });
  });
});
