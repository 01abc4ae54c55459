import { describe, expect, test } from '@jest/globals';
import { type DueRule, dueDate, type LifeCounter } from './due-date.js';
import { dueReason } from './due-reason.js';

const TODAY = '2025-03-01';

function reason(use: DueRule['use'], days: number | null, counter: LifeCounter | null, today = TODAY): string {
  const last = { day: '2025-01-10', use: { 'run hours': 4000 } };
  return dueReason(dueDate({ use, days, base: 'floating', graceDays: 0 }, last, counter === null ? {} : { 'run hours': counter }, today), today);
}

describe('why a task is due', () => {
  test.each([
    [
      'hours first',
      { 'run hours': 2000 },
      365,
      { life: 4900, asOf: TODAY, dailyUse: 18 },
      TODAY,
      'Last done on 10 Jan; every 2,000 h, of which 1,100 h are left at 18 h a day: until 1 May, before the 365 days are over.',
    ],
    [
      'calendar first',
      { 'run hours': 2000 },
      180,
      { life: 4100, asOf: TODAY, dailyUse: 2 },
      TODAY,
      'Last done on 10 Jan; every 180 days, so by 9 Jul, before the 2,000 h are used up.',
    ],
    [
      'passed',
      { 'run hours': 2000 },
      365,
      { life: 6150, asOf: '2025-05-20', dailyUse: 18 },
      '2025-05-20',
      'Last done on 10 Jan; every 2,000 h, passed by 150 h at 18 h a day: since 11 May, before the 365 days are over.',
    ],
    ['calendar passed', {}, 30, null, TODAY, 'Last done on 10 Jan; every 30 days, so it was due on 9 Feb.'],
    [
      'stands still',
      { 'run hours': 2000 },
      365,
      { life: 4000, asOf: TODAY, dailyUse: 0 },
      TODAY,
      'Last done on 10 Jan; every 365 days, so by 10 Jan 2026, while the count stands still (run hours).',
    ],
    ['not read', { 'run hours': 2000 }, 365, null, TODAY, 'Last done on 10 Jan; every 365 days, so by 10 Jan 2026, while the use is not known (run hours).'],
    [
      'stands still, no calendar',
      { 'run hours': 2000 },
      null,
      { life: 4000, asOf: TODAY, dailyUse: 0 },
      TODAY,
      'Last done on 10 Jan; no day can be given while it stands still, and no calendar limit holds.',
    ],
    ['not read, no calendar', { 'run hours': 2000 }, null, null, TODAY, 'Last done on 10 Jan; no day can be given, since the use is not known.'],
    ['no limit', {}, null, null, TODAY, 'Last done on 10 Jan; the rule names no limit.'],
  ])('%s', (_, use, days, counter, today, sentence) => {
    expect(reason(use, days, counter, today)).toBe(sentence);
  });

  test('names what an outlook or the condition says, and the limits that come later', () => {
    const dated = { from: 'condition', limit: 'feed turbidity', dueOn: '2025-02-01', earliestOn: '2025-02-01', latestOn: '2025-02-15' } as const;
    const said = { ...dated, inWords: 'feed turbidity lay above 50 NTU first on 1 Feb (62)' };
    const rule = { use: {}, days: 365, base: 'floating', graceDays: 0 } as const;
    const last = { day: '2025-01-10', use: {} };
    expect(dueReason(dueDate(rule, last, {}, TODAY, [said]), TODAY)).toBe(
      'Last done on 10 Jan; feed turbidity lay above 50 NTU first on 1 Feb (62), before the 365 days are over.',
    );
    expect(dueReason(dueDate({ ...rule, days: 7 }, last, {}, TODAY, [said]), TODAY)).toBe(
      'Last done on 10 Jan; every 7 days, so it was due on 17 Jan, before the feed turbidity asked for it.',
    );
    expect(dueReason(dueDate({ ...rule, notCounted: [{ from: '2025-02-01', to: null }] }, last, {}, TODAY), TODAY)).toBe(
      'Last done on 10 Jan; the calendar stands still while the skid is laid up.',
    );
  });
});
