import { describe, expect, test } from '@jest/globals';
import { meetings } from './together.js';

describe('chemicals together', () => {
  test('one after the other need a rinse where they must not meet', () => {
    expect(meetings('sequence', ['sodium hypochlorite', 'citric acid'])).toHaveLength(1);
    expect(meetings('sequence', ['sodium hypochlorite', 'Rinse to drain', 'citric acid'])).toEqual([]);
    expect(meetings('sequence', ['sodium hypochlorite', 'rinse', 'citric acid', 'sodium bisulfite'])).toEqual([
      { one: 'citric acid', other: 'sodium bisulfite', happens: 'sulphur dioxide gas' },
    ]);
  });

  test('in a bay or a tank all meet all, and a rinse helps nothing', () => {
    expect(meetings('van bay', ['NaOCl', 'rinse', 'HCl', 'NaOH'])).toHaveLength(2);
    expect(meetings('tank', ['NaOCl', 'NaOH'])).toEqual([]);
  });
});
