import { describe, expect, test } from '@jest/globals';
import type { Schemas } from '../../api/client.js';
import { checkWhatIf, NOTHING_ASKED, whatIfBody, whatIfField, workToDefer } from './what-if-fields.js';
import { whatIfInWords } from './what-if-in-words.js';

const people = [
  {
    personId: 'ada',
    skills: [
      { skill: 'Welding', lastOn: '2026-11-01' },
      { skill: 'Pumps', lastOn: null },
    ],
  },
];
const plan = { firstDay: '2026-11-30', days: 14, lines: [], notInPlan: [] };
const asked = (about: object) => ({ ...NOTHING_ASKED, ...about });

describe('what is asked', () => {
  test('one more has the skills of somebody that still hold on the first day', () => {
    const body = whatIfBody(asked({ likeId: 'ada', skillsLikeId: 'ada' }), plan, { people, today: '2026-11-25' });
    expect(body).toEqual({ firstDay: '2026-11-30', days: 14, seconds: 3, oneMore: { likePersonId: 'ada', skills: ['Pumps'] } });
  });

  test('of a plan that has begun only the days that are left are compared', () => {
    expect(whatIfBody(asked({ kind: 'all' }), plan, { people, today: '2026-12-02' })).toMatchObject({ firstDay: '2026-12-02', days: 12, laterDays: 7 });
  });

  test('work that was promised cannot be asked to come later', () => {
    const left = { id: 'x', kind: 'due', text: 'Grease', siteId: 's', siteName: 'North', urgent: false, promised: false, reason: '' } as const;
    expect(workToDefer({ ...plan, notInPlan: [left, { ...left, id: 'y', promised: true }] })).toEqual([
      { id: 'x', text: 'Grease, North', weekLater: '2026-12-07' },
    ]);
  });

  test('what is missing is told at the fields that are shown, and no others', () => {
    expect(Object.keys(checkWhatIf(asked({ kind: 'more' })))).toEqual(['likeId']);
    expect(Object.keys(checkWhatIf(asked({ kind: 'work' })))).toEqual(['workId', 'from']);
    for (const laterDays of ['0', '29', '', '1.5']) expect(Object.keys(checkWhatIf(asked({ kind: 'all', laterDays })))).toEqual(['laterDays']);
    expect(checkWhatIf(asked({ kind: 'all', laterDays: '28' }))).toEqual({});
    expect(['#/notBefore/0/id', '#/notBefore/0/from', '#/oneMore/likePersonId'].map(whatIfField)).toEqual(['workId', 'from', 'likeId']);
  });
});

describe('the comparison in words', () => {
  const cost = (kind: 'nights' | 'late' | 'travel' | 'left out', minutes: number, count: number, money: number | null = null) => ({
    kind,
    minutes,
    count,
    money,
  });
  type Cost = ReturnType<typeof cost>;
  const view = (now: Cost[], otherwise: Cost[], later: Schemas['WhatIfLaterView'][] = [], currency: string | null = null) => ({
    currency,
    now: { costs: now },
    otherwise: { costs: otherwise },
    placedOtherwise: [],
    leftOutOtherwise: [],
    later,
  });

  test('says what is less and what is more', () => {
    expect(
      whatIfInWords(
        view([cost('travel', 300, 4), cost('nights', 120, 1), cost('late', 0, 0)], [cost('travel', 240, 4), cost('nights', 0, 0), cost('late', 90, 1)]),
      ),
    ).toEqual(['1 night away less.', '1 piece of work more after the latest day.', 'In all it costs 1 h 30 min of work less.']);
  });

  test('counts in money where rates are known, and what is left out as no cost', () => {
    const now = [cost('travel', 300, 4, 250), cost('left out', 900, 1, 750)];
    expect(whatIfInWords(view(now, [cost('travel', 360, 5, 300), cost('left out', 0, 0, 0)], [], 'EUR'))).toEqual(['In all it costs EUR 50 more.']);
  });

  test('names work that has another place, or none', () => {
    const later = [
      {
        id: 'x',
        kind: 'due' as const,
        text: 'Grease',
        now: { day: '2026-11-30', startAt: '08:00', people: [{ personId: 'ada', name: 'Ada' }] },
        otherwise: null,
      },
    ];
    expect(whatIfInWords(view([], [], later))).toEqual(['Grease: now Mon 30 Nov, 08:00, Ada, then left out.', 'In all it costs the same.']);
  });
});
