import { describe, expect, test } from '@jest/globals';
import { checkReplan, replanBody, replanField, workOptions } from './replan-fields.js';

const FORM = {
  'absences/0/personId': 'ada',
  'absences/0/from': '2026-12-01',
  'absences/0/until': '2026-12-02',
  'longWork/0/id': 'oil',
  'longWork/0/minutes': '90',
  'urgent/0/id': 'pump',
  'urgent/1/id': 'valve',
};

describe('what has become known since a plan was made', () => {
  test('is sent list by list, and lists without rows are left out', () => {
    expect(replanBody(FORM)).toEqual({
      absences: [{ personId: 'ada', from: '2026-12-01', until: '2026-12-02' }],
      longWork: [{ id: 'oil', minutes: 90 }],
      urgentIds: ['pump', 'valve'],
    });
    expect(replanBody({})).toEqual({});
  });

  test('is complete, row by row', () => {
    expect(checkReplan(FORM)).toEqual({});
    expect(Object.keys(checkReplan({ ...FORM, 'absences/0/until': '', 'longWork/0/minutes': 'two hours' }))).toEqual([
      'absences/0/until',
      'longWork/0/minutes',
    ]);
  });

  test('is said of work that waits, or of a visit as a whole', () => {
    const line = (visitId: string | null, id: string) => ({ visitId, visitNo: 7, siteName: 'Oak', work: [{ id, kind: 'due', text: id, minutes: 30 }] });
    const plan = { lines: [line(null, 'oil'), line('v7', 'seals')], notInPlan: [{ id: 'gauge', kind: 'job', text: 'gauge' }] };
    expect(workOptions(plan as unknown as Parameters<typeof workOptions>[0])).toEqual([
      { id: 'oil', text: 'oil', isVisit: false },
      { id: 'v7', text: 'Visit 7, Oak', isVisit: true },
      { id: 'gauge', text: 'gauge', isVisit: false },
    ]);
  });

  test('is told at the row that the service means', () => {
    expect(replanField('#/urgentIds/1')).toBe('urgent/1/id');
    expect(replanField('#/absences/0/until')).toBe('absences/0/until');
  });
});
