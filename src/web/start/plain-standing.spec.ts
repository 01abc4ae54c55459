import { describe, expect, test } from '@jest/globals';
import { plainStanding } from './plain-standing.js';

const good = {
  kind: 'skid',
  serviceState: 'in service',
  standing: 'steady',
  nextTask: null,
  nextOn: null,
  silent: false,
  lastReadingAt: '2026-11-24T05:00:00Z',
  breakdown: null,
} as const;
const say = (about: Partial<Parameters<typeof plainStanding>[0]> = {}) => plainStanding({ ...good, ...about }, 'Europe/Oslo').join(' ');

describe('how a skid is, said to its owner', () => {
  test('in good order needs nothing now, and what lies ahead is named with its day', () => {
    expect(say()).toBe('Nothing is needed now.');
    expect(say({ standing: 'watch', nextTask: 'Recovery clean', nextOn: '2027-01-10' })).toBe(
      'Nothing is needed now. Ahead: Recovery clean, about 10 Jan 2027.',
    );
  });

  test('with work that is due or late says which, and when it was to be', () => {
    expect(say({ standing: 'due', nextTask: 'Change the oil', nextOn: '2026-12-01' })).toBe('Due soon: Change the oil, best about 1 Dec 2026.');
    expect(say({ standing: 'overdue', nextTask: 'Change the oil', nextOn: '2026-11-01' })).toBe('Late: Change the oil, which was to be done about 1 Nov 2026.');
  });

  test('that is silent never passes for one in good order', () => {
    expect(say({ standing: 'no-data', silent: true })).toBe('No reading since 24 Nov 2026, 06:00, so we cannot say how it is.');
    expect(say({ standing: 'no-data', silent: true, lastReadingAt: null })).toBe('No reading has come in yet, so we cannot say how it is.');
    expect(say({ standing: 'due', silent: true, nextTask: 'Change the oil', nextOn: '2026-12-01' })).toMatch(/^Due soon: .* No reading since 24 Nov/);
  });

  test('that is broken says so first, and not that nothing is needed', () => {
    expect(say({ breakdown: 'no water' })).toBe('A breakdown is open: no water.');
    expect(say({ breakdown: 'no water', standing: 'overdue', nextTask: 'Change the oil', nextOn: '2026-11-01' })).toMatch(/^A breakdown is open.*Late: /);
  });

  test('that is laid up is not said to be silent', () => {
    expect(say({ serviceState: 'laid up' })).toBe('It is laid up: no readings are expected.');
  });
});
