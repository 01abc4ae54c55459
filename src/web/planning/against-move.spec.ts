import { describe, expect, test } from '@jest/globals';
import { againstMove, type PlanningFacts } from './against-move.js';

const stop = { id: 'oil', kind: 'due', text: 'Change the oil', siteId: 'elm', siteName: 'Elm', arriveAt: '13:00', startAt: '13:00', endAt: '15:00' };
const OPEN = { ferry: null, openMonths: [], noticeDays: 0, inductions: [] };
const ELM = {
  siteId: 'elm',
  name: 'Elm',
  windows: [],
  mayWorkAlone: true,
  ferry: { out: ['08:00'], back: ['12:00', '16:00'], minutes: 30 },
  openMonths: [11],
  noticeDays: 3,
  inductions: ['Induction Elm'],
};
const FACTS = {
  people: [
    {
      personId: 'ada',
      name: 'Ada',
      workDays: [1, 2, 3, 4, 5],
      shiftFrom: '07:00',
      shiftUntil: '17:00',
      daysOff: [{ from: '2026-12-03', until: '2026-12-04', reason: 'Leave' }],
      skills: [{ skill: 'Induction Elm', lastOn: '2026-11-30' }],
    },
    { personId: 'tom', name: 'Tom', workDays: [], shiftFrom: null, shiftUntil: null, daysOff: [], skills: [] },
  ],
  sites: [{ siteId: 'oak', name: 'Oak', windows: [{ days: [1, 2], from: '08:00', until: '16:00' }], mayWorkAlone: false, ...OPEN }, ELM],
  today: '2026-11-27',
  tours: [{ personId: 'ada', personName: 'Ada', day: '2026-11-30', stops: [stop] }],
} as unknown as PlanningFacts;

/** Two people at Oak on a Monday morning, against which nothing speaks but what is changed. */
const against = (change: object) =>
  againstMove({ siteId: 'oak', day: '2026-11-30', startTime: '09:00', minutes: 120, personIds: ['ada', 'eve'], stopIds: ['seals'], ...change }, FACTS);

describe('what speaks against another day, time or people', () => {
  test('is nothing within the hours of people and of the site', () => {
    expect(against({})).toEqual([]);
  });

  test('are days and hours of people', () => {
    expect(against({ day: '2026-12-03' })).toContain('Ada is away that day: Leave');
    expect(against({ day: '2026-12-05' })).toContain('Ada does not work on that day of the week');
    expect(against({ startTime: '06:30' })).toContain('Ada works from 07:00 to 17:00, and this ends at 08:30');
    expect(against({ personIds: ['ada', 'tom'] })).toEqual(['Of Tom neither home nor hours are known']);
  });

  test('are hours of the site, and one person where nobody may work alone', () => {
    expect(against({ day: '2026-12-02' })).toEqual(['Oak lets nobody in on that day of the week']);
    expect(against({ startTime: '07:30' })).toEqual(['Oak lets people in 08:00–16:00']);
    expect(against({ personIds: ['ada'] })).toEqual(['At Oak nobody may work alone']);
  });

  test('are the ferry, the road, the notice and the inductions of the site', () => {
    const elm = { siteId: 'elm', personIds: ['ada'], stopIds: ['oil'] };
    expect(against(elm)).toEqual([]);
    expect(against({ ...elm, startTime: '08:00' })).toEqual(['The ferry to Elm leaves at 08:00, and back at 12:00, 16:00']);
    expect(against({ ...elm, day: '2026-12-01' })).toEqual(['The road to Elm is closed in that month', 'Ada does not hold Induction Elm on that day']);
    expect(against({ ...elm, day: '2026-11-27' })).toEqual(['Elm wants 3 days of notice: ask the client first']);
  });

  test('is other work of the plan at that time, but not the work itself', () => {
    expect(against({ startTime: '12:00' })).toEqual(['Ada is at Elm then, 13:00–15:00']);
    expect(against({ startTime: '12:00', stopIds: ['oil'] })).toEqual([]);
  });
});
