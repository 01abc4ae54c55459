import type { Schemas } from '../api/client.js';
import { planWords } from '../words/plan.js';
import { fieldAtPointer, rowsOf } from './row-entries.js';

type Entries = Readonly<Record<string, string>>;

/** What may have become known since a plan was made: each a list of rows, with the fields of a row. */
export const REPLAN_LISTS = {
  absences: ['personId', 'from', 'until'],
  longWork: ['id', 'minutes'],
  lateParts: ['id', 'from'],
  urgent: ['id'],
} as const;
export type ReplanList = keyof typeof REPLAN_LISTS;

export const replanLabel = (name: string): string => {
  const [list = '', , field = ''] = name.split('/');
  return (
    (planWords.replan.labels as Readonly<Record<string, string>>)[`${list} ${field}`] ??
    (planWords.replan.labels as Readonly<Record<string, string>>)[field] ??
    name
  );
};

/** Work is urgent by its place in a plain list of the service. */
export const replanField = (pointer: string): string => {
  const [, place] = /^#\/urgentIds\/(\d+)$/.exec(pointer) ?? [];
  return place === undefined ? fieldAtPointer(pointer) : `urgent/${place}/id`;
};

/** What needs a change before it is sent: every row says all that it asks for. */
export function checkReplan(entries: Entries): Record<string, string> {
  const problems: Record<string, string> = {};
  for (const [name, text] of Object.entries(entries)) {
    if (text.trim() === '') problems[name] = planWords.replan.need(replanLabel(name));
    else if (name.endsWith('/minutes') && !/^[1-9]\d{0,3}$/.test(text.trim())) problems[name] = planWords.replan.needMinutes;
  }
  return problems;
}

interface WorkOption {
  readonly id: string;
  readonly text: string;
  readonly isVisit: boolean;
}

/** What can be named of a plan: work that waits by itself, and visits that are there as a whole. */
export function workOptions({ lines, notInPlan }: Pick<Schemas['PlanView'], 'lines' | 'notInPlan'>): WorkOption[] {
  const placed = lines.flatMap(({ visitId, visitNo, siteName, work }): WorkOption[] =>
    visitId === null
      ? work.map(({ id, text }) => ({ id, text, isVisit: false }))
      : [{ id: visitId, text: planWords.replan.visit(visitNo ?? 0, siteName), isVisit: true }],
  );
  return [...placed, ...notInPlan.map(({ id, text, kind }) => ({ id, text, isVisit: kind === 'visit' }))];
}

/** As it is sent, once it was checked: lists without rows are left out. */
export function replanBody(entries: Entries): Schemas['ReplanDto'] {
  const absences = rowsOf(entries, 'absences', REPLAN_LISTS.absences);
  const longWork = rowsOf(entries, 'longWork', REPLAN_LISTS.longWork);
  const lateParts = rowsOf(entries, 'lateParts', REPLAN_LISTS.lateParts);
  const urgent = rowsOf(entries, 'urgent', REPLAN_LISTS.urgent);
  return {
    ...(absences.length === 0 ? {} : { absences }),
    ...(longWork.length === 0 ? {} : { longWork: longWork.map(({ id, minutes }) => ({ id, minutes: Number(minutes) })) }),
    ...(lateParts.length === 0 ? {} : { lateParts }),
    ...(urgent.length === 0 ? {} : { urgentIds: urgent.map(({ id }) => id) }),
  };
}
