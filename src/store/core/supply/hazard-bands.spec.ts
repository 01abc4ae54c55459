import { describe, expect, test } from '@jest/globals';
import { bandProblem, hazardsAt } from './hazard-bands.js';
import { usualHazards } from './hazard-library.js';

const at = (name: string, percent: number) => hazardsAt(usualHazards(name)?.bands ?? [], percent);

describe('hazards by concentration', () => {
  test.each(['sodium hypochlorite', 'sodium hydroxide', 'hydrochloric acid', 'citric acid'])('the ranges of %s lie one after the other', (name) => {
    expect(bandProblem(usualHazards(name)?.bands ?? [])).toBeNull();
  });

  test('a drum and the day tank made from it have different labels', () => {
    expect(at('NaOCl', 12.5)).toMatchObject({ unNumber: '1791', signalWord: 'Danger' });
    expect(at('NaOCl', 5)).toMatchObject({ unNumber: '1791', signalWord: 'Warning' });
  });

  test('hypochlorite of any strength warns of acids', () => {
    for (const percent of [0.1, 5, 10, 15]) expect(at('bleach', percent)?.statements).toContain('EUH031');
  });

  // The school safety table: nothing below 0.36 %, corrosive to skin from 25 % on.
  test('hydrochloric acid', () => {
    expect(at('HCl', 0.3)).toBeNull();
    expect(at('HCl', 24.9)?.statements).toEqual(['H290', 'H315', 'H319', 'H335']);
    expect(at('HCl', 25)?.statements).toContain('H314');
  });

  test('ranges that overlap, or end before they begin, are refused', () => {
    expect(
      bandProblem([
        { fromPercent: 5, belowPercent: null },
        { fromPercent: 0, belowPercent: 5 },
      ]),
    ).toBeNull();
    expect(
      bandProblem([
        { fromPercent: 5, belowPercent: null },
        { fromPercent: 6, belowPercent: 7 },
      ]),
    ).toContain('overlap');
    expect(bandProblem([{ fromPercent: 5, belowPercent: 5 }])).toContain('ends before');
  });
});
