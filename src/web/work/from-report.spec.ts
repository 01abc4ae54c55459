import { describe, expect, it } from '@jest/globals';
import { emptyDraft, filled, SIGNED } from '../../../test/support/job-sheet.js';
import { addRow, type Draft } from './draft.js';
import { fromReport } from './from-report.js';
import { toReport } from './to-report.js';

const report = (draft: Draft) => toReport(draft, false).report;
const expectSame = (draft: Draft) => expect(report(fromReport(emptyDraft(), report(draft)))).toEqual(report(draft));

describe('a sheet that comes back from the service', () => {
  it('is the one that was sent: answers, times, photographs and parts', () => {
    const answers = { ...SIGNED, 'tasks/grease/outcome': 'done', 'tasks/grease/steps/1/yes': 'no', 'tasks/grease/steps/3/value': '1.32' };
    const photos = ['task grease step 4', 'job'].map((place, at) => ({ id: `p${at}`, place, name: '', mediaType: 'image/jpeg' as const, bytes: 0 }));
    expectSame({ ...filled(emptyDraft(), { ...answers, 'partsUsed/ring/quantity': '6' }), photos });
    expectSame(filled(emptyDraft(), { ...answers, 'partsUsed/ring/quantity': '6', 'partsUsed/ring/placeId': '' }));
  });

  it('keeps the rows that were added and the records of its tasks', () => {
    const task = { ...SIGNED, 'tasks/check/outcome': 'done', 'calibrations/check/unit': 'bar', 'calibrations/check/tolerance': '0.01' };
    const points = { 'calibrations/check/points/1/reference': '1', 'calibrations/check/points/1/asFound': '1.1' };
    const draft = addRow(filled(emptyDraft(), { ...task, ...points }), 'followUps', 'mine', { title: 'Mend the roof', request: '' });
    expectSame(draft);
    expect(report(draft).followUps).toHaveLength(1);
  });
});
