import { readDecimal } from '../readings/hand-fields.js';
import { fromLocalField } from '../site-time.js';
import { workWords } from '../words/work.js';
import { type Draft, entryOf, pointsOf, rowField, sentRows, stepField } from './draft.js';
import { PART_LABELS } from './fields-of.js';
import type { TaskOfSheet } from './sheet-types.js';
import { ANSWER_OF, isAnswered, isSkipped } from './step-answer.js';
import { filledPoints } from './to-report.js';

type Problems = Readonly<Record<string, string>>;
type Rule = 'some' | 'number' | 'positive' | 'whole';

const { need } = workWords;

/** What each row of a list must hold; `number` alone may be left out. */
const ROW_RULES: Readonly<Record<string, Readonly<Record<string, readonly Rule[]>>>> = {
  partsUsed: { quantity: ['positive'] },
  partsFitted: { positionId: ['some'], itemId: ['some'], setCount: ['whole'] },
  partsRemoved: { positionId: ['some'], reason: ['some'] },
  readings: { signal: ['some'], value: ['some', 'number'], unit: ['some'] },
  cleans: { chemical: ['some'], strengthMgL: ['positive'], contactMinutes: ['positive'] },
  integrityTests: {
    startKpa: ['some', 'number'],
    endKpa: ['some', 'number'],
    minutes: ['some', 'positive'],
    settledMinutes: ['some', 'number'],
    temperatureC: ['some', 'number'],
  },
  calibrations: { unit: ['some'], tolerance: ['some', 'positive'], referenceInstrument: ['some'] },
  fibreRepairs: { positionId: ['some'], fibres: ['some', 'whole'] },
  followUps: { title: ['some'] },
};

function broken(rule: Rule, text: string, label: string): string | undefined {
  if (rule === 'some') return text === '' ? need.some(label) : undefined;
  if (text === '') return undefined;
  const value = readDecimal(text);
  if (value === undefined) return need.number(label);
  if (rule === 'positive' && value <= 0) return need.positive(label);
  return rule === 'whole' && !(Number.isInteger(value) && value > 0) ? need.whole(label) : undefined;
}

/** What needs a change before the sheet can be sent, by field, in the order of the sheet. */
export function checkSheet(draft: Draft): Problems {
  return Object.assign({}, ...draft.sheet.tasks.map((task) => checkTask(draft, task)), checkRows(draft), checkMeters(draft), checkEnd(draft)) as Problems;
}

function checkTask(draft: Draft, { taskId, task, steps }: TaskOfSheet): Problems {
  const field = (part: string) => `tasks/${taskId}/${part}`;
  const outcome = entryOf(draft, field('outcome'));
  // What is not finished may leave tasks for the next time.
  if (outcome === '') return entryOf(draft, 'outcome') === 'finished' ? { [field('outcome')]: need.outcome(task) } : {};
  if (outcome === 'not done') return entryOf(draft, field('whyNot')) === '' ? { [field('whyNot')]: need.whyNot(task) } : {};
  return Object.fromEntries(
    steps
      .filter((step) => !isAnswered(draft, taskId, step))
      .map(({ no, kind }) => {
        if (isSkipped(draft, taskId, no)) return [stepField(taskId, no, 'why'), need.safety(task, no)];
        const typed = kind === 'reading' && entryOf(draft, stepField(taskId, no, 'value')) !== '';
        return [stepField(taskId, no, ANSWER_OF[kind]), typed ? need.number(`${task}, ${workWords.step(no)}`) : need.step(task, no)];
      }),
  );
}

function checkRows(draft: Draft): Problems {
  const found = Object.entries(ROW_RULES).flatMap(([list, parts]) =>
    rowsToCheck(draft, list).flatMap((key) =>
      Object.entries(parts).flatMap(([part, rules]) => {
        const field = rowField(list, key, part);
        const message = rules.map((rule) => broken(rule, entryOf(draft, field), PART_LABELS[list]?.[part] ?? part)).find(Boolean);
        return message === undefined ? [] : [[field, message]];
      }),
    ),
  );
  const points = sentRows(draft, 'calibrations').flatMap((taskId) => checkPoints(draft, taskId));
  return Object.fromEntries([...found, ...points]);
}

/** Of parts only those that were used. */
const rowsToCheck = (draft: Draft, list: string): string[] =>
  sentRows(draft, list).filter((key) => list !== 'partsUsed' || !['', '0'].includes(entryOf(draft, rowField(list, key, 'quantity'))));

function checkPoints(draft: Draft, taskId: string): string[][] {
  const field = (key: string, part: string) => rowField(pointsOf(taskId), key, part);
  const filled = filledPoints(draft, taskId);
  const name = draft.sheet.tasks.find((task) => task.taskId === taskId)?.task ?? '';
  if (filled.length === 0) return [[field(draft.rows[pointsOf(taskId)]?.[0] ?? '1', 'reference'), need.point(name)]];
  const labels = { reference: workWords.referenceValue, asFound: workWords.asFound, asLeft: workWords.asLeft };
  return filled.flatMap((key) =>
    Object.entries(labels).flatMap(([part, label]) => {
      const text = entryOf(draft, field(key, part));
      const isMissing = text === '' && part !== 'asLeft';
      return isMissing || (text !== '' && readDecimal(text) === undefined) ? [[field(key, part), need.number(label)]] : [];
    }),
  );
}

function checkMeters(draft: Draft): Problems {
  const found = draft.sheet.meters.flatMap(({ meterId, positionName, kind }) => {
    const [value, old, isExchanged] = ['value', 'exchangedOldFinal', 'exchanged'].map((part) => entryOf(draft, rowField('meters', meterId, part)));
    const label = workWords.meter(positionName, kind);
    if (value !== '' && readDecimal(value ?? '') === undefined) return [[rowField('meters', meterId, 'value'), need.number(label)]];
    return isExchanged === 'true' && readDecimal(old ?? '') === undefined ? [[rowField('meters', meterId, 'exchangedOldFinal'), need.exchanged(label)]] : [];
  });
  return Object.fromEntries(found);
}

function checkEnd(draft: Draft): Problems {
  const { timeZone } = draft.sheet;
  const [began, ended] = ['startedAt', 'finishedAt'].map((field) => fromLocalField(entryOf(draft, field), timeZone));
  const repair = broken('positive', entryOf(draft, 'breakdown/repairMinutes'), workWords.repairMinutes);
  const minutes = readDecimal(entryOf(draft, 'minutes'));
  const travel = { travelMinutes: workWords.travelMinutes, travelKm: workWords.travelKm };
  return {
    ...Object.fromEntries(
      Object.entries(travel).flatMap(([field, label]) => {
        const message = broken('number', entryOf(draft, field), label);
        return message === undefined ? [] : [[field, message]];
      }),
    ),
    ...(repair === undefined ? {} : { 'breakdown/repairMinutes': repair }),
    ...(began === undefined ? { startedAt: need.began } : {}),
    ...(began !== undefined && ended !== undefined && ended < began ? { finishedAt: need.order } : {}),
    ...(minutes === undefined || minutes <= 0 ? { minutes: need.minutes } : {}),
    ...(entryOf(draft, 'signedBy') === '' ? { signedBy: need.signedBy } : {}),
  };
}
