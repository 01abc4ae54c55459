import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { type ChemicalClass, chemicalClass, INCOMPATIBILITIES, mustNotMeet } from './incompatibility.js';

describe('chemicals that must not meet', () => {
  test.each([
    ['NaOCl', 'hypochlorite'],
    ['Sodium hypochlorite 12.5 %', 'hypochlorite'],
    ['HCl 32 %', 'acid'],
    ['Citric', 'acid'],
    ['Sulphuric acid', 'acid'],
    ['Ferric chloride', 'acidic salt'],
    ['NaOH 50 %', 'caustic'],
    ['Sodium bisulfite', 'reducing agent'],
    ['Sodium metabisulphite', 'reducing agent'],
    ['Ascorbic acid', 'reducing agent'],
    ['Hydrogen peroxide', 'peroxide'],
    ['Ammonium chloride', 'ammonia'],
    ['Blue stuff', 'unknown'],
  ] satisfies [string, ChemicalClass][])('%s is of the class %s', (name, expected) => {
    expect(chemicalClass(name)).toBe(expected);
  });

  test.each([
    ['NaOCl', 'HCl'],
    ['NaOCl', 'Citric acid'],
    ['NaOCl', 'Phosphoric acid'],
    ['NaOCl', 'Ferric chloride'],
    ['NaOCl', 'Alum'],
  ])('%s and %s make chlorine gas', (one, other) => {
    expect(mustNotMeet(one, other)?.happens).toMatch(/chlorine gas/);
  });

  test('hypochlorite meets nothing that is not known; it may stand beside caustic and itself', () => {
    expect(mustNotMeet('NaOCl', 'residue of a drum')?.happens).toMatch(/treated as an acid/);
    expect(mustNotMeet('NaOCl', 'NaOH')).toBeNull();
    expect(mustNotMeet('NaOCl', 'bleach')).toBeNull();
  });

  test('hypochlorite has a rule for every class but caustic and its own', () => {
    const ruled = INCOMPATIBILITIES.flatMap(({ classes }) => (classes.includes('hypochlorite') ? classes : []));
    const all: ChemicalClass[] = ['hypochlorite', 'acid', 'acidic salt', 'ammonia', 'peroxide', 'reducing agent', 'unknown'];
    expect(new Set(ruled)).toEqual(new Set(all));
  });

  test('the order does not matter', () => {
    const name = fc.constantFrom('NaOCl', 'HCl', 'NaOH', 'H2O2', 'ferric chloride', 'sodium bisulfite', 'ammonia', 'something');
    fc.assert(
      fc.property(name, name, (one, other) => {
        expect(mustNotMeet(one, other)).toBe(mustNotMeet(other, one));
      }),
    );
  });
});
