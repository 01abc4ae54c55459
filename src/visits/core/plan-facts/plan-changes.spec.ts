import { describe, expect, test } from '@jest/globals';
import { planChanges, type WorkInPlan } from './plan-changes.js';

const NOTHING = { absences: [], longWork: [], lateParts: [], urgentIds: [] };
const ada = { personId: 'a', name: 'Ada' };
const tom = { personId: 't', name: 'Tom' };
const at = (day: string, startAt = '09:00', people = [ada]) => ({ day, startAt, people });
const item = (id: string, place: WorkInPlan['place'], about: Partial<WorkInPlan> = {}): WorkInPlan => ({
  kind: 'job',
  id,
  text: `Job ${id}`,
  place,
  reason: place === null ? 'no room' : '',
  urgent: false,
  promised: false,
  ...about,
});
const only = (before: WorkInPlan[], after: WorkInPlan[], since = {}) =>
  planChanges(before, after, { ...NOTHING, ...since }).map(({ what, why }) => [what, why]);

describe('what changed between two plans', () => {
  const there = item('1', at('2026-12-01'));

  test('is nothing for what is at the same place', () => {
    expect(only([there], [there])).toEqual([['unchanged', '']]);
  });

  test('is told with the cause, where there is one', () => {
    const moved = item('1', at('2026-12-02', '09:00', [tom]));
    const away = { absences: [{ personId: 'a', from: '2026-12-01', until: '2026-12-01' }] };
    expect(only([there], [moved], away)).toEqual([['moved', 'Ada is away on 1 Dec']]);
    expect(only([there], [moved], { lateParts: [{ id: '1', from: '2026-12-02' }] })).toEqual([['moved', 'its parts are there from 2 Dec on']]);
    expect(only([there], [moved], { longWork: [{ id: '1', minutes: 300 }] })).toEqual([['moved', 'takes 300 minutes now']]);
    const breakdown = item('9', at('2026-12-01', '13:00'), { urgent: true });
    expect(only([there], [moved, breakdown])).toEqual([
      ['moved', 'makes room for Job 9, which is urgent'],
      ['new', 'was not known to the earlier plan'],
    ]);
    expect(only([there], [item('1', at('2026-12-01', '10:00'))])[0]?.[0]).toBe('other time');
  });

  test('tells what is left out, what comes back, what is gone, and a promise that cannot be kept, always', () => {
    expect(only([there], [item('1', null)])).toEqual([['left out', 'no room']]);
    expect(only([item('1', null)], [there])[0]?.[0]).toBe('new');
    expect(only([there], [])[0]?.[0]).toBe('gone');
    expect(only([item('1', null)], [item('1', null)])).toEqual([]);
    const promise = item('1', null, { promised: true });
    expect(only([promise], [promise])).toEqual([['promise not kept', 'no room']]);
    const away = { absences: [{ personId: 'a', from: '2026-12-01', until: '2026-12-02' }] };
    const stands = { ...promise, stands: at('2026-12-02') };
    expect(only([there], [stands], away)).toEqual([['promise not kept', 'Ada is away on 2 Dec. It stands as it is until somebody shifts it']]);
  });
});
