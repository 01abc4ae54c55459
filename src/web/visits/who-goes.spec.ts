import { describe, expect, test } from '@jest/globals';
import { dayProposed, whoGoes } from './who-goes.js';

const JO = { id: 'jo', busyMinutes: 240 };
const KIM = { id: 'kim', busyMinutes: 60 };
const LEE = { id: 'lee', busyMinutes: 60 };

describe('who is proposed to go', () => {
  test('are those who went there last', () => {
    expect(whoGoes([JO, KIM, LEE], ['lee', 'jo'])).toEqual(['lee', 'jo']);
  });

  test('leaves out those who can be sent no longer', () => {
    expect(whoGoes([JO, KIM], ['max', 'jo'])).toEqual(['jo']);
    expect(whoGoes([JO, KIM], ['max'])).toEqual(['kim']);
  });

  test('is otherwise the first of those with the least to do that day', () => {
    expect(whoGoes([JO, KIM, LEE], [])).toEqual(['kim']);
    expect(whoGoes([], ['jo'])).toEqual([]);
  });
});

describe('the day that is proposed', () => {
  test('is the earliest best day', () => {
    expect(dayProposed(['2026-12-06', null, '2026-11-28'], '2026-11-25')).toEqual({ day: '2026-11-28', best: '2026-11-28' });
  });

  test('is today where that has passed, or where there is none', () => {
    expect(dayProposed(['2026-09-27'], '2026-11-25')).toEqual({ day: '2026-11-25', best: '2026-09-27' });
    expect(dayProposed([null], '2026-11-25')).toEqual({ day: '2026-11-25', best: null });
  });
});
