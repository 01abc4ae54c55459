import { describe, expect, it } from '@jest/globals';
import { emptyDraft, filled, SIGNED } from '../../../test/support/job-sheet.js';
import { addRow, type Draft } from './draft.js';
import { refusedSheet } from './refused-sheet.js';
import { fieldAt, toReport } from './to-report.js';

const photo = (id: string, place: string) => ({ id, place, name: `${id}.jpg`, mediaType: 'image/jpeg' as const, bytes: 1 });
const report = (draft: Draft) => toReport(draft, false).report;
const greased = {
  ...SIGNED,
  'tasks/grease/outcome': 'done',
  'tasks/grease/steps/1/yes': 'yes',
  'tasks/grease/steps/2/outcome': 'skipped',
  'tasks/grease/steps/2/why': 'no grease left',
  'tasks/grease/steps/3/value': '1,32',
};

describe('a job sheet as it is sent', () => {
  it('holds times as moments, by the clocks at the site, and what was answered', () => {
    const draft = { ...filled(emptyDraft(), greased), photos: [photo('p1', 'task grease step 4'), photo('p2', 'job')] };
    expect(report(draft)).toMatchObject({
      id: 'report',
      startedAt: '2026-11-25T07:30:00.000Z',
      finishedAt: '2026-11-25T09:00:00.000Z',
      minutes: 90,
      signedBy: 'M. Soto',
      attachmentIds: ['p1', 'p2'],
      tasks: [
        {
          taskId: 'grease',
          outcome: 'done',
          steps: [
            { no: 1, outcome: 'done', yes: true },
            { no: 2, outcome: 'skipped', why: 'no grease left' },
            { no: 3, outcome: 'done', value: 1.32, unit: 'bar' },
            { no: 4, outcome: 'done', attachmentIds: ['p1'] },
          ],
        },
      ],
    });
  });

  it('leaves out parts of which none was used, and records of tasks that were not done', () => {
    const { partsUsed, partsFitted, integrityTests, calibrations, cleans, meters } = report(filled(emptyDraft(), greased));
    expect([partsUsed, partsFitted, integrityTests, calibrations, cleans, meters]).toEqual([[], [], [], [], [], []]);
  });

  it('takes parts from the van of the technician, and a part that is fitted once only', () => {
    expect(emptyDraft().rows.partsUsed).toEqual(['ring']);
    expect(report(filled(emptyDraft(), { ...SIGNED, 'partsUsed/ring/quantity': '6' })).partsUsed).toEqual([{ itemId: 'ring', quantity: '6', placeId: 'van' }]);
    const notOurs = filled(emptyDraft(), { ...SIGNED, 'partsUsed/ring/quantity': '6', 'partsUsed/ring/placeId': '' });
    expect(report(notOurs).partsUsed).toEqual([{ itemId: 'ring', quantity: '6' }]);
  });

  it('sends what a task of its kind leaves behind, pressures in kPa', () => {
    const draft = filled(emptyDraft(), {
      ...SIGNED,
      'tasks/test/outcome': 'done',
      'integrityTests/test/startKpa': '1.5',
      'integrityTests/test/endKpa': '1.45',
      'integrityTests/test/minutes': '10',
      'integrityTests/test/settledMinutes': '5',
      'integrityTests/test/temperatureC': '12',
      'tasks/change/outcome': 'done',
      'partsFitted/change/lot': 'L-9',
      'tasks/clean/outcome': 'done',
      'tasks/check/outcome': 'done',
      'calibrations/check/points/2/reference': '1',
      'calibrations/check/points/2/asFound': '1.02',
    });
    const at = '2026-11-25T09:00:00.000Z';
    expect(report(draft)).toMatchObject({
      integrityTests: [{ at, startKpa: 150, endKpa: 145, minutes: 10, settledMinutes: 5, temperatureC: 12 }],
      partsFitted: [{ positionId: 'housing', itemId: 'cart', lot: 'L-9', setCount: 7, fromPlaceId: 'van', at }],
      cleans: [{ kind: 'CIP', chemical: 'citric acid' }],
      calibrations: [{ positionId: 'gauge', at, points: [{ reference: 1, asFound: 1.02, asLeft: null }] }],
    });
  });
});

describe('what the service says of a sheet', () => {
  it('finds the field that it is about, whatever was left out before it', () => {
    const draft = addRow(filled(emptyDraft(), { ...greased, 'meters/hours/value': '90' }), 'followUps', 'row', { title: 'New seal' });
    const { keys } = toReport(draft, false);
    expect(fieldAt('#/meters/0/value', keys)).toBe('meters/hours/value');
    expect(fieldAt('#/tasks/0/steps/2/value', keys)).toBe('tasks/grease/steps/3/value');
    expect(fieldAt('#/followUps/0/title', keys)).toBe('followUps/row/title');
    expect(fieldAt('#/signedBy', keys)).toBe('signedBy');
  });

  it('is kept with the sheet in words that stand alone', () => {
    const draft = filled(emptyDraft(), { ...greased, 'meters/hours/value': '90' });
    const errors = [
      { pointer: '#/meters/0/value', message: 'must be 100 or more' },
      { pointer: '#/jobId', message: 'The job is dropped' },
    ];
    expect(refusedSheet(draft, { title: 'Not so', errors }, true)).toEqual({
      isHeld: true,
      title: 'Not so',
      fields: { 'meters/hours/value': 'Feed pump: run hours: must be 100 or more' },
      others: ['The job is dropped'],
    });
  });
});
