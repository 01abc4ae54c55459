import { describe, expect, test } from '@jest/globals';
import { lifeLaw, lnDensity } from './life-law.js';

const limit = (...loads: number[]) => loads.map((load) => ({ load, ended: 'limit' as const }));
const censored = (...loads: number[]) => loads.map((load) => ({ load, ended: 'censored' as const }));
const centre = (lives: Parameters<typeof lifeLaw>[0]) => Math.exp(lifeLaw(lives)?.lnCentre ?? NaN);
const scale = (lives: Parameters<typeof lifeLaw>[0]) => lifeLaw(lives)?.lnScale ?? NaN;

describe('the life of a set, from earlier sets', () => {
  test('lies about the geometric mean of lives that reached the limit', () => {
    expect(centre(limit(8_000, 12_500))).toBeCloseTo(10_000, 6);
  });

  test('is wide from one life and closes with lives that agree', () => {
    expect(scale(limit(9_000))).toBeGreaterThan(0.5);
    expect(scale(limit(9_000, 9_100, 9_050))).toBeLessThan(0.2);
    expect(scale(limit(9_000, 9_100, 9_050, 9_000, 8_950, 9_020))).toBeLessThan(scale(limit(9_000, 9_100, 9_050)));
    expect(scale(limit(4_000, 9_000, 20_000))).toBeGreaterThan(scale(limit(9_000, 9_100, 9_050)));
  });

  test('a set changed before the limit makes it longer the more it had run, and says little where it had run little', () => {
    const known = limit(9_000, 10_000, 11_000);
    expect(centre([...known, ...censored(15_000)])).toBeGreaterThan(centre(known));
    expect(centre([...known, ...censored(15_000)])).toBeGreaterThan(centre([...known, ...censored(9_000)]));
    expect(centre([...known, ...censored(500)]) / centre(known)).toBeCloseTo(1, 2);
    expect(centre([...known, ...censored(15_000)])).toBeGreaterThan(centre([...known, ...limit(15_000)]) * 0.999);
  });

  test('is twice what they ran where none reached the limit, and unknown where there is none', () => {
    expect(centre(censored(4_000, 5_000, 6_000))).toBeCloseTo(10_000, 6);
    expect(lifeLaw([])).toBeNull();
    expect(lifeLaw(limit(0))).toBeNull();
  });

  test('scales with the unit of the load', () => {
    const lives = [...limit(9, 10, 11), ...censored(12)];
    const thousandfold = lives.map((life) => ({ ...life, load: life.load * 1000 }));
    expect(centre(thousandfold) / centre(lives)).toBeCloseTo(1000, 6);
    expect(scale(thousandfold)).toBeCloseTo(scale(lives), 9);
  });

  test('is densest at its centre and falls alike on both sides', () => {
    const law = lifeLaw(limit(10)) ?? { lnCentre: NaN, lnScale: NaN, freedom: NaN };
    expect(lnDensity(law, law.lnCentre)).toBeCloseTo(0, 12);
    expect(lnDensity(law, law.lnCentre + 0.5)).toBeCloseTo(lnDensity(law, law.lnCentre - 0.5), 12);
    expect(lnDensity(law, law.lnCentre + 0.5)).toBeLessThan(0);
  });
});
