import { isUnitCode, toStored } from '../../shared/units.js';
import { readDecimal } from '../readings/hand-fields.js';
import { fromLocalField } from '../site-time.js';
import { type Draft, entryOf, isDone, photosAt, pointsOf, rowField, rowsOf, sentRows, stepField } from './draft.js';
import type { JobReport, TaskReport } from './report-body.js';
import type { StepOfSheet, TaskOfSheet } from './sheet-types.js';
import { isSkipped, photoPlace } from './step-answer.js';

/** Keys of the rows that go along, so that what the service says of a row by its number finds its field. */
export type SentKeys = Readonly<Record<string, readonly string[]>>;

/** The sheet as it is sent; to be asked only when `checkSheet` finds nothing. */
export function toReport(draft: Draft, offline: boolean): { readonly report: JobReport; readonly keys: SentKeys } {
  const text = (field: string) => entryOf(draft, field);
  const number = (field: string) => readDecimal(text(field));
  const moment = (field: string) => fromLocalField(text(field), draft.sheet.timeZone)?.toISOString();
  const stored = (field: string, unit: string) => {
    const value = number(field);
    return value !== undefined && isUnitCode(unit) ? toStored(value, unit) : undefined;
  };
  const finishedAt = moment('finishedAt') ?? '';
  const keys: Record<string, readonly string[]> = {};
  const rows = <T extends object>(list: string, body: (of: (part: string) => string, key: string) => T, fits: (key: string) => boolean = () => true) => {
    const sent = sentRows(draft, list).filter(fits);
    keys[list] = sent;
    return sent.map((key) => given(body((part) => rowField(list, key, part), key)));
  };
  const tasks = draft.sheet.tasks.filter(({ taskId }) => text(`tasks/${taskId}/outcome`) !== '');
  keys.tasks = tasks.map(({ taskId }) => taskId);
  const meters = draft.sheet.meters.filter(({ meterId }) => number(rowField('meters', meterId, 'value')) !== undefined);
  keys.meters = meters.map(({ meterId }) => meterId);

  const report: JobReport = {
    id: draft.reportId,
    offline,
    startedAt: moment('startedAt') ?? '',
    finishedAt,
    minutes: number('minutes') ?? 0,
    ...given({ travelMinutes: number('travelMinutes'), travelKm: number('travelKm') }),
    outcome: text('outcome') === 'finished' ? 'finished' : 'to be continued',
    tasks: tasks.map((task) => taskReport(draft, task, keys)),
    partsUsed: rows(
      'partsUsed',
      (of) => ({
        itemId: text(of('itemId')),
        quantity: String(number(of('quantity')) ?? 0),
        lot: text(of('lot')),
        placeId: text(of('placeId')),
        countWasWrong: text(of('countWasWrong')) === 'true' ? true : undefined,
      }),
      (key) => (number(rowField('partsUsed', key, 'quantity')) ?? 0) > 0,
    ),
    partsFitted: rows('partsFitted', (of) => ({
      positionId: text(of('positionId')),
      itemId: text(of('itemId')),
      serialNumber: text(of('serialNumber')),
      lot: text(of('lot')),
      setCount: number(of('setCount')),
      removalReason: text(of('removalReason')),
      fromPlaceId: text(of('fromPlaceId')),
      countWasWrong: text(of('countWasWrong')) === 'true' ? true : undefined,
      at: finishedAt,
    })),
    partsRemoved: rows('partsRemoved', (of) => ({
      positionId: text(of('positionId')),
      reason: text(of('reason')),
      toPlaceId: text(of('toPlaceId')),
      at: finishedAt,
    })),
    meters: meters.map(({ meterId }) =>
      given({ meterId, value: number(rowField('meters', meterId, 'value')), exchangedOldFinal: number(rowField('meters', meterId, 'exchangedOldFinal')) }),
    ),
    readings: rows('readings', (of) => ({ signal: text(of('signal')), value: number(of('value')), unit: text(of('unit')) })),
    cleans: rows('cleans', (of) => ({
      kind: text(of('kind')),
      chemical: text(of('chemical')),
      strengthMgL: number(of('strengthMgL')),
      contactMinutes: number(of('contactMinutes')),
      note: text(of('note')),
    })),
    integrityTests: rows('integrityTests', (of) => ({
      at: finishedAt,
      startKpa: stored(of('startKpa'), draft.units.pressure),
      endKpa: stored(of('endKpa'), draft.units.pressure),
      minutes: number(of('minutes')),
      settledMinutes: number(of('settledMinutes')),
      temperatureC: stored(of('temperatureC'), draft.units.temperature),
      note: text(of('note')),
    })),
    fibreRepairs: rows('fibreRepairs', (of) => ({ positionId: text(of('positionId')), at: finishedAt, fibres: number(of('fibres')), note: text(of('note')) })),
    calibrations: rows('calibrations', (of, taskId) => ({
      positionId: draft.sheet.tasks.find((task) => task.taskId === taskId)?.positionId ?? '',
      at: finishedAt,
      signal: text(of('signal')),
      unit: text(of('unit')),
      tolerance: number(of('tolerance')),
      referenceInstrument: text(of('referenceInstrument')),
      certificateNo: text(of('certificateNo')),
      points: pointRows(draft, taskId, keys).map((key) => pointReport(draft, taskId, key)),
      nextOn: text(of('nextOn')),
      note: text(of('note')),
    })),
    ...given({ serviceState: text('serviceState') }),
    ...(draft.sheet.kind === 'breakdown' ? { breakdown: breakdownReport(text, number, moment) } : {}),
    followUps: rows('followUps', (of) => ({ title: text(of('title')), request: text(of('request')), severity: text(of('severity')) })),
    note: text('note'),
    signedBy: text('signedBy'),
    attachmentIds: draft.photos.map(({ id }) => id),
  };
  return { report, keys };
}

function taskReport(draft: Draft, { taskId, steps }: TaskOfSheet, keys: Record<string, readonly string[]>): TaskReport {
  const of = (part: string) => entryOf(draft, `tasks/${taskId}/${part}`);
  const isTaskDone = isDone(draft, taskId);
  const sent = isTaskDone ? steps : steps.filter(({ no }) => isSkipped(draft, taskId, no) || hasAnything(draft, taskId, no));
  keys[`tasks/${taskId}/steps`] = sent.map(({ no }) => String(no));
  return {
    taskId,
    outcome: isTaskDone ? 'done' : 'not done',
    ...(isTaskDone ? {} : given({ whyNot: of('whyNot') })),
    ...given({ note: of('note') }),
    steps: sent.map((step) => stepReport(draft, taskId, step)),
  };
}

const hasAnything = (draft: Draft, taskId: string, no: number): boolean =>
  ['outcome', 'value', 'yes'].some((part) => entryOf(draft, stepField(taskId, no, part)) !== '') || photosAt(draft, photoPlace(taskId, no)).length > 0;

function stepReport(draft: Draft, taskId: string, { no, kind, unit }: StepOfSheet): TaskReport['steps'][number] {
  const of = (part: string) => entryOf(draft, stepField(taskId, no, part));
  const attachmentIds = photosAt(draft, photoPlace(taskId, no)).map(({ id }) => id);
  if (isSkipped(draft, taskId, no)) return { no, outcome: 'skipped', ...given({ why: of('why') }), attachmentIds };
  const reading = kind === 'reading' ? given({ value: readDecimal(of('value')), unit: unit ?? undefined }) : {};
  return { no, outcome: 'done', ...reading, ...(kind === 'check' && of('yes') !== '' ? { yes: of('yes') === 'yes' } : {}), attachmentIds };
}

/** Points of which something was entered. */
export const filledPoints = (draft: Draft, taskId: string): string[] =>
  rowsOf(draft, pointsOf(taskId)).filter((key) => ['reference', 'asFound'].some((part) => entryOf(draft, rowField(pointsOf(taskId), key, part)) !== ''));

function pointRows(draft: Draft, taskId: string, keys: Record<string, readonly string[]>): string[] {
  const sent = filledPoints(draft, taskId);
  keys[pointsOf(taskId)] = sent;
  return sent;
}

function pointReport(draft: Draft, taskId: string, key: string) {
  const of = (part: string) => readDecimal(entryOf(draft, rowField(pointsOf(taskId), key, part)));
  return { reference: of('reference') ?? 0, asFound: of('asFound') ?? 0, asLeft: of('asLeft') ?? null };
}

function breakdownReport(text: (field: string) => string, number: (field: string) => number | undefined, moment: (field: string) => string | undefined) {
  return given({
    restoredAt: moment('breakdown/restoredAt'),
    downFrom: moment('breakdown/downFrom'),
    repairMinutes: number('breakdown/repairMinutes'),
    failureMode: text('breakdown/failureMode'),
    mechanism: text('breakdown/mechanism'),
    cause: text('breakdown/cause'),
    remedy: text('breakdown/remedy'),
  });
}

type Given<T> = { readonly [K in keyof T]?: Exclude<T[K], undefined> };

/** Without what was left empty. */
function given<T extends object>(body: T): Given<T> {
  return Object.fromEntries(Object.entries(body).filter(([, value]) => value !== undefined && value !== '')) as Given<T>;
}

/** The field that a pointer of the service means: `#/tasks/0/steps/1/value` to `tasks/<task>/steps/2/value`. */
export function fieldAt(pointer: string, keys: SentKeys): string {
  return pointer
    .replace(/^#?\//, '')
    .split('/')
    .reduce((path, part) => (path === '' ? part : `${path}/${(/^\d+$/.test(part) ? keys[path]?.[Number(part)] : undefined) ?? part}`), '');
}
