import { describe, expect, test } from '@jest/globals';
import { cautionsFor } from './cautions.js';

describe('cautions', () => {
  test('warn of chlorine gas on both sides, hypochlorite and acid', () => {
    expect(cautionsFor('Sodium hypochlorite 12.5 %', []).join(' ')).toContain('chlorine gas');
    expect(cautionsFor('Citric acid', ['NaOCl']).join(' ')).toContain('chlorine gas, possibly violent');
  });

  test('name what stands beside it only where the two must not meet', () => {
    expect(cautionsFor('sodium hydroxide', ['sodium hypochlorite']).join(' ')).not.toContain('Kept at the same skid');
  });

  test('always defer to the safety data sheet, local codes and the manual', () => {
    for (const chemical of ['antiscalant', 'HCl', 'NaOH']) expect(cautionsFor(chemical, []).at(-1)).toMatch(/manual.*safety data sheet.*local codes/);
  });
});
