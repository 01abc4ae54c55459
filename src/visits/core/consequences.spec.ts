import { describe, expect, test } from '@jest/globals';
import { consequences, type JobAfter, type OtherVisit, type PlannedTask, type PlannedVisit, type Promised } from './consequences.js';
import { visitSpan } from './visit-span.js';

const TODAY = '2026-11-25';
const oil: PlannedTask = { task: 'Change the oil', skidName: 'UF 1', earliestOn: '2026-11-20', latestOn: '2026-12-01', minutes: 60, crew: 1 };
const visit = (more: Partial<PlannedVisit> = {}): PlannedVisit => ({
  onDay: '2026-11-30',
  startTime: '08:00',
  minutes: 60,
  timeZone: 'Europe/Madrid',
  people: 1,
  tasks: [oil],
  ...more,
});
const told = (of: PlannedVisit, others: OtherVisit[] = [], promised: Promised | null = null) =>
  consequences(of, others, promised, TODAY).map(({ text }) => text);

describe('what follows from a visit', () => {
  test('nothing, where nothing speaks against it', () => {
    expect(told(visit())).toEqual([]);
    expect(told(visit(), [], { onDay: '2026-11-30', startTime: '08:00' })).toEqual([]);
  });

  test('a promise is moved', () => {
    const [text] = told(visit(), [], { onDay: '2026-11-28', startTime: '09:00' });
    expect(text).toBe('The client was promised 28 Nov at 09:00: say why in tellClient, which the client reads');
  });

  test('somebody is elsewhere, told by the clock of this site', () => {
    const span = visitSpan({ onDay: '2026-11-30', startTime: '07:30', minutes: 45, timeZone: 'Europe/London' });
    const other = { no: 7, siteName: 'Birch works', personId: 'a', personName: 'Ada', minutes: 45, span };
    expect(told(visit({ minutes: 90 }), [other])).toEqual(['Ada is at Birch works on 30 Nov from 08:30 to 09:15 (visit 7)']);
    expect(told(visit({ minutes: 30 }), [other])).toEqual([]);
  });

  test('somebody cannot be there in time from the visit before, or at the one after', () => {
    const at = (startTime: string) => visitSpan({ onDay: '2026-11-30', startTime, minutes: 60, timeZone: 'Europe/Madrid' });
    const ways = { here: { minutes: 44.2, source: 'estimated by distance' }, back: { minutes: 50, source: 'set by hand' } } as const;
    const other = (startTime: string) => ({ no: 7, siteName: 'Birch works', personId: 'a', personName: 'Ada', minutes: 60, span: at(startTime), ways });
    expect(told(visit(), [other('06:30')])).toEqual([
      'Ada is at Birch works on 30 Nov until 07:30 (visit 7), and the way from there takes 45 minutes (estimated by distance): 30 are between',
    ]);
    expect(told(visit(), [other('09:45')])).toEqual([
      'Ada is at Birch works on 30 Nov from 09:45 (visit 7), and the way there takes 50 minutes (set by hand): 45 are between',
    ]);
    expect(told(visit(), [other('06:15'), other('09:50')])).toEqual([]);
  });

  test('somebody has no room for the break, with the way to the next visit or without', () => {
    const at = (startTime: string) => visitSpan({ onDay: '2026-11-30', startTime, minutes: 60, timeZone: 'Europe/Madrid' });
    const ways = { here: { minutes: 20, source: 'set by hand' }, back: { minutes: 20, source: 'set by hand' } } as const;
    const other = { no: 7, siteName: 'Birch works', personId: 'a', personName: 'Ada', minutes: 60, span: at('09:30'), ways };
    const rule = { personId: 'a', personName: 'Ada', minutes: 30, from: '08:30', until: '09:45' };
    const said = (breaks: readonly (typeof rule)[]) => consequences(visit(), [other], null, TODAY, breaks).map(({ text }) => text);
    expect(said([rule])).toEqual(['Ada has no room on 30 Nov for the break of 30 minutes between 08:30 and 09:45']);
    expect(said([{ ...rule, minutes: 10 }])).toEqual([]);
    expect(said([{ ...rule, personId: 'b' }])).toEqual([]);
  });

  test('a job comes before the one after which it is to be done, by the clocks of both sites', () => {
    const said = (job: Partial<JobAfter>) =>
      consequences(visit(), [], null, TODAY, [], [{ no: 14, afterNo: 12, afterState: 'open', afterNote: '', ...job }]).map(({ text }) => text);
    const told = (why: string) => [`Job 14 is to be done after job 12, which ${why}`];
    const at = (startTime: string, onDay = '2026-11-30') => ({ held: { no: 7, onDay, startTime, timeZone: 'Europe/London' } });
    expect(said({})).toEqual(told('is in no visit'));
    expect(said({ afterState: 'waiting', afterNote: 'seal kit' })).toEqual(told('waits (seal kit)'));
    expect(said(at('08:00', '2026-12-03'))).toEqual(told('is in a later visit (3 Dec, visit 7)'));
    expect(said(at('07:30'))).toEqual(told('is in a later visit (30 Nov, visit 7)'));
    expect(said(at('07:00'))).toEqual(told('is in another visit at the same time (30 Nov, visit 7)'));
    expect([said(at('06:59')), said(at('23:00', '2026-11-29'))]).toEqual([[], []]);
  });

  test('it is too late, too early, or over', () => {
    expect(told(visit({ onDay: '2026-12-02' }))).toEqual(['1 day after the latest day of Change the oil at UF 1 (1 Dec)']);
    expect(told(visit({ onDay: '2026-11-18' }))).toEqual([
      '2 days before the earliest sensible day of Change the oil at UF 1 (20 Nov)',
      '18 Nov has passed: this records a visit after the fact',
    ]);
    expect(told(visit({ tasks: [{ ...oil, latestOn: null, earliestOn: null }], onDay: '2027-03-01' }))).toEqual([]);
  });

  test('it goes on past midnight, on a long night too', () => {
    expect(told(visit({ startTime: '22:00', minutes: 120 }))).toEqual([]);
    expect(told(visit({ startTime: '22:00', minutes: 121 }))).toEqual([expect.stringContaining('until 00:01 on 1 Dec')]);
    const longDay = visit({ onDay: '2026-10-25', startTime: '00:00', tasks: [] });
    expect(told({ ...longDay, minutes: 25 * 60 })).toEqual(['25 Oct has passed: this records a visit after the fact']);
  });

  test('what its tasks take must not meet, in the van and in the pipes, told once for each pair', () => {
    const chlorine: PlannedTask = { ...oil, task: 'Disinfect', chemicals: ['sodium hypochlorite'] };
    const acid: PlannedTask = { ...oil, task: 'Acid clean', skidName: 'UF 2', chemicals: ['citric acid', 'sodium hypochlorite'] };
    expect(told(visit({ tasks: [chlorine, { ...chlorine, skidName: 'UF 2', chemicals: ['sodium hydroxide'] }] }))).toEqual([]);
    expect(told(visit({ tasks: [chlorine, acid] }))).toEqual([
      'sodium hypochlorite and citric acid must not meet (chlorine gas, possibly violent). The visit takes both for Disinfect at UF 1, Acid clean at UF 2: a bay of the van for each, and a rinse between until no chlorine shows and the pH is that of the feed. Or make two visits',
    ]);
  });

  test('people are too few, or a time is not known', () => {
    expect(
      told(
        visit({
          tasks: [
            { ...oil, task: 'Lift a module', crew: 3 },
            { ...oil, crew: 2 },
          ],
        }),
      ),
    ).toEqual(['Lift a module at UF 1 needs 3 people; 1 goes']);
    expect(told(visit({ tasks: [{ ...oil, minutes: null }], people: 2 }))).toEqual([
      'No usual time is known for Change the oil: 60 minutes are assumed for each',
    ]);
  });
});
