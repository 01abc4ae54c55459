import { describe, expect, test } from '@jest/globals';
import type { SheetStep } from '../../shared/task-sheet.js';
import { judgeReport, type MeterBefore, type ReportToJudge } from './judge-report.js';

const step = (no: number, about: Partial<SheetStep>): SheetStep => ({
  no,
  kind: 'do',
  text: `Step ${no}`,
  safety: false,
  signal: null,
  unit: null,
  low: null,
  high: null,
  ...about,
});
const GREASE = {
  id: 'grease',
  task: 'Grease the bearings',
  steps: [step(1, { safety: true, text: 'Isolate and lock' }), step(2, { kind: 'reading' }), step(3, { kind: 'check' })],
};
const ALL_DONE = [
  { no: 1, outcome: 'done' as const },
  { no: 2, outcome: 'done' as const, value: 41 },
  { no: 3, outcome: 'done' as const, yes: true },
];
const HOURS: MeterBefore = { id: 'm', kind: 'run hours', positionName: 'P-101', modulus: null, value: 5_100, at: new Date('2026-11-03T09:00:00Z') };

const judged = (report: Partial<ReportToJudge>, meters: MeterBefore[] = [HOURS]) =>
  judgeReport(
    {
      startedAt: '2026-11-05T08:00:00Z',
      finishedAt: '2026-11-05T09:00:00Z',
      outcome: 'finished',
      signedBy: 'R. Example',
      tasks: [{ taskId: 'grease', outcome: 'done', steps: ALL_DONE }],
      meters: [],
      ...report,
    },
    { tasks: [GREASE], meters, now: new Date('2026-11-05T10:00:00Z') },
  );
const pointers = (...args: Parameters<typeof judged>) => judged(...args).map(({ pointer }) => pointer);
const withSteps = (steps: ReportToJudge['tasks'][number]['steps']) => ({ tasks: [{ taskId: 'grease', outcome: 'done' as const, steps }] });

describe('a reading in another unit', () => {
  const inBar = { ...GREASE, steps: [step(1, { kind: 'reading', unit: 'bar', low: 1, high: 2 })] };
  const judgedIn = (unit: string) =>
    judgeReport(
      {
        startedAt: '2026-11-05T08:00:00Z',
        finishedAt: '2026-11-05T09:00:00Z',
        outcome: 'finished',
        signedBy: 'R. Example',
        tasks: [{ taskId: 'grease', outcome: 'done', steps: [{ no: 1, outcome: 'done', value: 150, unit }] }],
        meters: [],
      },
      { tasks: [inBar], meters: [], now: new Date('2026-11-05T10:00:00Z') },
    ).map(({ pointer }) => pointer);

  test('is one of the same kind', () => {
    expect(judgedIn('kPa')).toEqual([]);
    expect(judgedIn('Cel')).toEqual(['#/tasks/0/steps/0/unit']);
  });
});

describe('a report counts', () => {
  test('when all is answered and signed', () => expect(judged({})).toEqual([]));

  test('with a value outside its limits, which is marked elsewhere, and a check answered no', () => {
    expect(judged(withSteps([ALL_DONE[0], { no: 2, outcome: 'done', value: 900 }, { no: 3, outcome: 'done', yes: false }] as typeof ALL_DONE))).toEqual([]);
  });

  test('with a task not done, when the reason is told', () => {
    expect(judged({ tasks: [{ taskId: 'grease', outcome: 'not done', whyNot: 'No grease', steps: [] }] })).toEqual([]);
    expect(pointers({ tasks: [{ taskId: 'grease', outcome: 'not done', whyNot: ' ', steps: [] }] })).toEqual(['#/tasks/0/whyNot']);
  });

  test('unsigned and with tasks left over only while the work is to be continued', () => {
    expect(pointers({ tasks: [], signedBy: '' })).toEqual(['#/tasks', '#/signedBy']);
    expect(judged({ tasks: [], signedBy: '', outcome: 'to be continued' })).toEqual([]);
  });
});

describe('a safety step', () => {
  test('is never left out silently', () => {
    expect(judged(withSteps(ALL_DONE.slice(1)))).toEqual([{ pointer: '#/tasks/0/steps', message: expect.stringContaining('Isolate and lock') }]);
    expect(pointers(withSteps([{ no: 1, outcome: 'skipped' }, ...ALL_DONE.slice(1)]))).toEqual(['#/tasks/0/steps/0/why']);
    expect(judged(withSteps([{ no: 1, outcome: 'skipped', why: 'The pump was out already' }, ...ALL_DONE.slice(1)]))).toEqual([]);
  });
});

describe('a step that was done', () => {
  test('holds its value or its answer', () => {
    expect(pointers(withSteps([ALL_DONE[0], { no: 2, outcome: 'done' }, { no: 3, outcome: 'done' }] as typeof ALL_DONE))).toEqual([
      '#/tasks/0/steps/1/value',
      '#/tasks/0/steps/2/yes',
    ]);
  });

  test('is one of the sheet', () => expect(pointers(withSteps([...ALL_DONE, { no: 9, outcome: 'done' }]))).toEqual(['#/tasks/0/steps/3/no']));
});

describe('a meter', () => {
  const read = (value: number, about: object = {}) => judged({ meters: [{ meterId: 'm', value, ...about }] });

  test('does not go backwards without an exchange', () => {
    expect(read(5_012)).toEqual([
      {
        pointer: '#/meters/0/value',
        message: 'run hours of P-101: 5012 is lower than 5100, read on 2026-11-03. Read it again, or say that the meter was exchanged',
      },
    ]);
    expect(read(3, { exchangedOldFinal: 5_120 })).toEqual([]);
  });

  test('may begin again at nought where its display does', () => {
    expect(judged({ meters: [{ meterId: 'm', value: 12 }] }, [{ ...HOURS, modulus: 10_000, value: 9_990 }])).toEqual([]);
    expect(judged({ meters: [{ meterId: 'm', value: 500 }] }, [{ ...HOURS, modulus: 10_000, value: 9_990 }])).toHaveLength(1);
  });

  test('of hours runs no faster than the clock', () => {
    expect(read(5_148)).toEqual([]); // 48 h later
    expect(read(5_200)[0]?.message).toContain('it can be 5148 at most');
  });
});

describe('the times', () => {
  test('lie in order, and not in the future', () => {
    expect(pointers({ finishedAt: '2026-11-05T07:00:00Z' })).toEqual(['#/finishedAt']);
    expect(pointers({ finishedAt: '2026-11-06T07:00:00Z' })).toEqual(['#/finishedAt']);
    expect(judged({ finishedAt: '2026-11-05T10:03:00Z' })).toEqual([]);
  });
});
