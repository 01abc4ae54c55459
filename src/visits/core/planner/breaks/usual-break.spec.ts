import { describe, expect, test } from '@jest/globals';
import { usualBreak } from './usual-break.js';

const RULE = { minutes: 30, from: 690, until: 840 };
const SHIFT = { from: 420, until: 1020, regularUntil: 960 };
const promised = (start: number, minutes: number, way = 30, home = 30) => ({ start, minutes, way, home, promised: true });

describe('the usual break of a day', () => {
  test('lies before or after what was promised, where there is room', () => {
    expect(usualBreak(RULE, SHIFT, [promised(740, 100)])).toEqual({ from: 690, until: 720 });
  });

  test('interrupts what was promised where there is no other room', () => {
    expect(usualBreak(RULE, SHIFT, [promised(600, 300)])).toEqual({ from: 750, until: 780 });
  });

  test('never stands on the moment at which promised work begins', () => {
    expect(usualBreak(RULE, SHIFT, [promised(760, 200)])?.until).toBeLessThanOrEqual(760);
  });

  test('leaves the way from one promised visit to the next as long as it takes', () => {
    const soon = { ...RULE, until: 780 };
    expect(usualBreak(soon, SHIFT, [promised(600, 120, 30), promised(760, 100, 40)])).toBeNull();
    expect(usualBreak(soon, SHIFT, [promised(600, 120, 30), promised(790, 100, 40)])).toEqual({ from: 720, until: 750 });
  });

  test('is left out where promised visits, and the ways from home and back, fill the shift', () => {
    expect(usualBreak(RULE, SHIFT, [promised(480, 480, 60, 60)])).toBeNull();
    expect(usualBreak(RULE, SHIFT, [promised(480, 450, 60, 60)])).not.toBeNull();
  });

  test('gives way to what is planned with a time, without being given up for it', () => {
    expect(usualBreak(RULE, SHIFT, [{ ...promised(740, 60), promised: false }])).toEqual({ from: 690, until: 720 });
    expect(usualBreak(RULE, SHIFT, [{ ...promised(480, 540, 60, 60), promised: false }])).not.toBeNull();
  });
});
