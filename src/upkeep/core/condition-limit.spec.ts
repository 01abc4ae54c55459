import { describe, expect, test } from '@jest/globals';
import { firstMet } from './condition-limit.js';

const days = [
  { day: '2025-01-01', value: 130 },
  { day: '2025-01-02', value: null },
  { day: '2025-01-03', value: 90 },
  { day: '2025-01-04', value: 121 },
  { day: '2025-01-05', value: 140 },
];

describe('a limit of the condition', () => {
  test('is met on the first day beyond it since the last time', () => {
    expect(firstMet(days, '2024-12-31', { above: 120, below: null })).toEqual({ day: '2025-01-01', value: 130 });
    expect(firstMet(days, '2025-01-01', { above: 120, below: null })).toEqual({ day: '2025-01-04', value: 121 });
    expect(firstMet(days, '2025-01-01', { above: null, below: 100 })).toEqual({ day: '2025-01-03', value: 90 });
  });

  test('is not met by its own value, by days without one, or on the day of the last time', () => {
    expect(firstMet(days, '2025-01-01', { above: 140, below: null })).toBeNull();
    expect(firstMet(days, '2025-01-05', { above: 120, below: 10 })).toBeNull();
    expect(firstMet([], '2025-01-05', { above: 120, below: null })).toBeNull();
    expect(firstMet(days, '2024-12-31', { above: null, below: null })).toBeNull();
  });
});
