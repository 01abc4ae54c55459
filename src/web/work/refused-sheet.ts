import type { Refusal } from '../offline/parcel.js';
import { workWords } from '../words/work.js';
import { type Draft, type RefusedSheet, rowField, stepField } from './draft.js';
import { PART_LABELS } from './fields-of.js';
import { ANSWER_OF } from './step-answer.js';
import { fieldAt, toReport } from './to-report.js';

/** What the service finds wrong, led back to the fields of the sheet that it was sent from. */
export function refusedSheet(draft: Draft, { title, errors }: Refusal, isHeld: boolean): RefusedSheet {
  const { keys } = toReport(draft, false);
  const told = errors.map(({ pointer, message }) => {
    const field = shownField(draft, fieldAt(pointer, keys));
    return { field, message: [labelOf(draft, field), message].filter(Boolean).join(': ') };
  });
  const known = told.filter(({ field }) => isField(draft, field));
  return {
    isHeld,
    title,
    fields: Object.fromEntries(known.map(({ field, message }) => [field, message])),
    others: told.filter((one) => !known.includes(one)).map(({ message }) => message),
  };
}

/** The field of the sheet for what the report has and the sheet does not show as such. */
function shownField({ sheet }: Draft, field: string): string {
  const [list = '', key = '', part = '', no = '', stepPart = ''] = field.split('/');
  if (list === 'tasks' && part === 'steps') {
    const step = sheet.tasks.find(({ taskId }) => taskId === key)?.steps.find((each) => String(each.no) === no);
    return step === undefined || stepPart === 'why' ? field : stepField(key, step.no, ANSWER_OF[step.kind]);
  }
  if (list === 'tasks' && key !== '') return ['whyNot', 'note'].includes(part) ? field : rowField(list, key, 'outcome');
  const stand = STANDS_FOR[`${list}/${part}`];
  return stand === undefined ? field : rowField(list, key, stand);
}

const STANDS_FOR: Readonly<Record<string, string>> = {
  'partsUsed/itemId': 'quantity',
  'partsUsed/countWasWrong': 'quantity',
  'partsFitted/at': 'itemId',
  'partsFitted/countWasWrong': 'itemId',
  'partsRemoved/at': 'positionId',
  'integrityTests/at': 'startKpa',
  'fibreRepairs/at': 'positionId',
  'calibrations/at': 'signal',
  'calibrations/positionId': 'signal',
};

const ALONE = ['startedAt', 'finishedAt', 'minutes', 'signedBy', 'note', 'outcome', 'serviceState'];
const LISTS = ['tasks', 'meters', 'breakdown', ...Object.keys(PART_LABELS)];

function isField({ sheet, rows }: Draft, field: string): boolean {
  const [list = '', key = '', part] = field.split('/');
  if (ALONE.includes(field)) return true;
  if (!LISTS.includes(list)) return false;
  if (list === 'tasks') return part !== undefined && sheet.tasks.some(({ taskId }) => taskId === key);
  if (list === 'meters') return part !== undefined && sheet.meters.some(({ meterId }) => meterId === key);
  return list === 'breakdown' || (part !== undefined && (rows[list]?.includes(key) ?? false));
}

/** What the field is called on the sheet, for a summary that stands far from it. */
function labelOf({ sheet }: Draft, field: string): string {
  const [list = '', key = '', part = '', no = ''] = field.split('/');
  if (list === 'tasks') {
    const task = sheet.tasks.find(({ taskId }) => taskId === key)?.task;
    if (task === undefined) return '';
    return part === 'steps' ? `${task}, ${workWords.step(Number(no))}` : task;
  }
  const meter = sheet.meters.find(({ meterId }) => list === 'meters' && meterId === key);
  return meter === undefined ? (PART_LABELS[list]?.[part] ?? '') : workWords.meter(meter.positionName, meter.kind);
}
