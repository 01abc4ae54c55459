import { describe, expect, it } from '@jest/globals';
import { emptyDraft, filled, SIGNED } from '../../../test/support/job-sheet.js';
import { checkSheet } from './check-sheet.js';
import { addRow, removeRow } from './draft.js';
import { outsideLimits } from './step-answer.js';
import { endOfWork, startClock, stopClock } from './work-clock.js';

const later = { outcome: 'to be continued' };
const problems = (entries: Record<string, string>) => checkSheet(filled(emptyDraft(), { ...SIGNED, ...later, ...entries }));

describe('a job sheet that is about to be sent', () => {
  it('asks of a finished job what became of each task, and leaves the rest of a job that goes on', () => {
    expect(Object.keys(checkSheet(filled(emptyDraft(), SIGNED)))).toEqual(['grease', 'change', 'test', 'check', 'clean'].map((id) => `tasks/${id}/outcome`));
    expect(problems({})).toEqual({});
  });

  it('asks why a task was not done', () => {
    expect(Object.keys(problems({ 'tasks/grease/outcome': 'not done' }))).toEqual(['tasks/grease/whyNot']);
  });

  it('asks for an answer to each step of a task that was done', () => {
    expect(Object.keys(problems({ 'tasks/grease/outcome': 'done' }))).toEqual(
      ['1/yes', '2/outcome', '3/value', '4/photos'].map((part) => `tasks/grease/steps/${part}`),
    );
  });

  it('lets a step be left out, but a safety step only with a reason', () => {
    const skipped = Object.fromEntries([1, 2, 3, 4].map((no) => [`tasks/grease/steps/${no}/outcome`, 'skipped']));
    const found = problems({ 'tasks/grease/outcome': 'done', ...skipped });
    expect(Object.keys(found)).toEqual(['tasks/grease/steps/1/why']);
    expect(problems({ 'tasks/grease/outcome': 'done', ...skipped, 'tasks/grease/steps/1/why': 'no power at the pump' })).toEqual({});
  });

  it('asks for the figures of a test and a calibration', () => {
    expect(Object.keys(problems({ 'tasks/test/outcome': 'done', 'integrityTests/test/startKpa': 'high' }))).toHaveLength(5);
    const found = problems({ 'tasks/check/outcome': 'done', 'calibrations/check/unit': 'bar', 'calibrations/check/tolerance': '0.01' });
    expect(Object.keys(found)).toEqual(['calibrations/check/referenceInstrument', 'calibrations/check/points/1/reference']);
  });

  it('lets parts be used that are not from our stock, and asks for a quantity that is a number', () => {
    expect(problems({ 'partsUsed/ring/placeId': '', 'partsUsed/ring/quantity': '2' })).toEqual({});
    expect(Object.keys(problems({ 'partsUsed/ring/quantity': 'two' }))).toEqual(['partsUsed/ring/quantity']);
  });

  it('asks for a signature, for minutes, and for an end after the beginning', () => {
    expect(Object.keys(problems({ signedBy: ' ', minutes: '0', finishedAt: '2026-11-25T08:00' })).toSorted()).toEqual(['finishedAt', 'minutes', 'signedBy']);
  });

  it('asks for the last value of a meter that was exchanged, and for what follow-up work is', () => {
    const draft = addRow(filled(emptyDraft(), { ...SIGNED, ...later, 'meters/hours/value': '2', 'meters/hours/exchanged': 'true' }), 'followUps', 'row');
    expect(Object.keys(checkSheet(draft))).toEqual(['followUps/row/title', 'meters/hours/exchangedOldFinal']);
    expect(Object.keys(checkSheet(removeRow(draft, 'followUps', 'row')))).toEqual(['meters/hours/exchangedOldFinal']);
  });
});

describe('a reading', () => {
  const step = { no: 1, kind: 'reading', text: '', safety: false, signal: null, unit: 'bar', low: 0.8, high: 1.5, last: null } as const;
  it('is said to be outside its limits at once, and not before it is a number', () => {
    expect(outsideLimits(step, '0,7')).toContain('Below the limit of 0.8 bar');
    expect(outsideLimits(step, '1.51')).toContain('Above the limit of 1.5 bar');
    for (const text of ['0.8', '1.5', '', '1.']) expect(outsideLimits(step, text)).toBeUndefined();
  });
});

describe('the clock', () => {
  const at = (time: string) => new Date(`2026-11-25T${time}:00Z`);
  it('adds up the minutes worked, however often it stands', () => {
    const first = stopClock(startClock(emptyDraft(), at('07:30')), at('08:00'));
    const second = endOfWork(startClock(first, at('08:30')), at('09:15'));
    expect(second.entries).toMatchObject({ startedAt: '2026-11-25T08:30', finishedAt: '2026-11-25T10:15', minutes: '75', runningSince: '' });
  });

  it('is not needed: without it the work ends as the sheet is sent, unless an end was entered', () => {
    expect(endOfWork(emptyDraft(), at('09:00')).entries.finishedAt).toBe('2026-11-25T10:00');
    expect(endOfWork(filled(emptyDraft(), SIGNED), at('12:00')).entries.finishedAt).toBe('2026-11-25T10:00');
  });
});
