import { describe, expect, test } from '@jest/globals';
import { statedStrengthGL } from './stated-strength.js';

const read = (chemical: string, value: number, basis: Parameters<typeof statedStrengthGL>[1]['basis'], densityKgL: number | null = null) => {
  const found = statedStrengthGL(chemical, { value, basis, densityKgL });
  return found.kind === 'strength' ? found.strengthGL : found.field;
};

describe('the strength on a label', () => {
  // Trade densities; definitions after White, Handbook of Chlorination (1972).
  test('of hypochlorite is available chlorine, by its basis', () => {
    expect(read('NaOCl', 12.5, 'trade %')).toBe(125);
    expect(read('NaOCl', 125, 'g/L')).toBe(125);
    expect(read('NaOCl', 12.5, 'wt % NaOCl', 1.2)).toBeCloseTo(142.9, 1);
    expect(read('NaOCl', 12.5, 'wt % Cl2', 1.2)).toBeCloseTo(150, 9);
    expect(read('NaOCl', 12.5, '% w/v NaOCl')).toBeCloseTo(119.1, 1);
  });

  test('of others goes by weight with its density, from the note or a table', () => {
    expect(read('hydrochloric acid', 32, 'wt %', 1.16)).toBeCloseTo(371.2, 9);
    expect(read('sodium hydroxide', 50, 'wt %')).toBeCloseTo(762.5, 9);
    expect(read('citric acid', 50, 'wt %')).toBeCloseTo(620, 9);
  });

  test('is asked about where it says too little', () => {
    expect(read('NaOCl', 12.5, 'wt %', 1.2)).toBe('basis');
    expect(read('NaOCl', 12.5, 'wt % Cl2')).toBe('densityKgL');
    expect(read('citric acid', 12.5, 'trade %')).toBe('basis');
    expect(read('hydrochloric acid', 32, 'wt %')).toBe('densityKgL');
  });
});
