import type { UnitCode } from '../../shared/units.js';
import type { PhotoRef } from '../offline/parcel.js';
import type { Place, Sheet, TaskOfSheet } from './sheet-types.js';

/**
 * A job sheet as far as it is filled in. Fields are named as the report that is sent names them, with keys in the place of numbers:
 * `tasks/<task>/steps/2/value`, `partsUsed/<row>/quantity`.
 */
export interface Draft {
  readonly reportId: string;
  readonly jobId: string;
  readonly personId: string;
  readonly personName: string;
  /** As it was when it was begun: it stays readable whatever is fetched later */
  readonly sheet: Sheet;
  readonly places: readonly Place[];
  readonly units: { readonly pressure: UnitCode; readonly temperature: UnitCode };
  readonly entries: Readonly<Record<string, string>>;
  /** Keys of the rows of each list */
  readonly rows: Readonly<Record<string, readonly string[]>>;
  readonly photos: readonly PhotoRef[];
  /** What the service found wrong with a report that it holds, or would not take */
  readonly refused: RefusedSheet | null;
}

export interface RefusedSheet {
  /** The service keeps the report and waits for its correction */
  readonly isHeld: boolean;
  readonly title: string;
  readonly fields: Readonly<Record<string, string>>;
  /** What belongs to no field */
  readonly others: readonly string[];
}

export interface DraftStart {
  readonly reportId: string;
  readonly person: { readonly id: string; readonly name: string };
  readonly sheet: Sheet;
  readonly places: readonly Place[];
  readonly units: Draft['units'];
}

export const stepField = (taskId: string, no: number, part: string) => `tasks/${taskId}/steps/${no}/${part}`;
export const rowField = (list: string, key: string, part: string) => `${list}/${key}/${part}`;
export const pointsOf = (taskId: string) => `calibrations/${taskId}/points`;

const isTest = ({ kind }: TaskOfSheet) => kind === 'integrity test';
const isCalibration = ({ kind, positionId }: TaskOfSheet) => kind === 'calibration' && positionId !== null;
const isClean = ({ kind }: TaskOfSheet) => kind === 'clean';
const isPartChange = ({ kind, positionId }: TaskOfSheet) => kind === 'part change' && positionId !== null;

/** The part that a task fits: it is told with the task, where it comes off stock, and not among the parts used. */
const partToFit = (task: TaskOfSheet) => (isPartChange(task) ? (task.parts.find(({ itemId }) => itemId === task.fitted?.itemId) ?? task.parts[0]) : undefined);

/** The parts that the tasks of a sheet use up, each item once. */
export function plannedParts({ tasks }: Sheet) {
  const planned = new Map<string, TaskOfSheet['parts'][number]>();
  for (const part of tasks.flatMap((task) => task.parts.filter((each) => each !== partToFit(task)))) {
    const before = planned.get(part.itemId);
    planned.set(part.itemId, { ...part, quantity: String(Number(part.quantity) + Number(before?.quantity ?? 0)) });
  }
  return [...planned.values()];
}

/** An empty sheet: a row for each part that is planned, and the record that each task asks for by its kind. */
export function startDraft({ reportId, person, sheet, places, units }: DraftStart): Draft {
  const van = places.find(({ kind }) => kind === 'van') ?? places[0];
  const planned = plannedParts(sheet);
  const of = (fits: (task: TaskOfSheet) => boolean) => sheet.tasks.filter(fits);
  const entries = Object.assign(
    { outcome: 'finished' },
    ...planned.map(({ itemId }) => rowEntries('partsUsed', itemId, { itemId, quantity: '0', placeId: van?.id ?? '' })),
    ...of(isPartChange).map((task) =>
      rowEntries('partsFitted', task.taskId, {
        positionId: task.positionId ?? '',
        itemId: partToFit(task)?.itemId ?? task.fitted?.itemId ?? '',
        setCount: String(Number(partToFit(task)?.quantity ?? 1)),
        fromPlaceId: van?.id ?? '',
      }),
    ),
    ...of(isClean).map(({ taskId, task, chemicals }) =>
      rowEntries('cleans', taskId, { kind: /recovery|CIP/i.test(task) ? 'CIP' : 'CEB', chemical: chemicals[0]?.chemical ?? '' }),
    ),
  ) as Draft['entries'];
  return {
    reportId,
    jobId: sheet.jobId,
    personId: person.id,
    personName: person.name,
    sheet,
    places,
    units,
    entries,
    rows: {
      partsUsed: planned.map(({ itemId }) => itemId),
      partsFitted: of(isPartChange).map(({ taskId }) => taskId),
      cleans: of(isClean).map(({ taskId }) => taskId),
      integrityTests: of(isTest).map(({ taskId }) => taskId),
      calibrations: of(isCalibration).map(({ taskId }) => taskId),
      ...Object.fromEntries(of(isCalibration).map(({ taskId }) => [pointsOf(taskId), ['1', '2', '3']])),
    },
    photos: [],
    refused: null,
  };
}

function rowEntries(list: string, key: string, values: Readonly<Record<string, string>>): Record<string, string> {
  return Object.fromEntries(Object.entries(values).map(([part, value]) => [rowField(list, key, part), value]));
}

export const entryOf = (draft: Draft, field: string): string => (draft.entries[field] ?? '').trim();
export const rowsOf = (draft: Draft, list: string): readonly string[] => draft.rows[list] ?? [];
export const photosAt = (draft: Draft, place: string): PhotoRef[] => draft.photos.filter((photo) => photo.place === place);

/** Whether the task is to be reported as done; what belongs to a task that is not done is not sent. */
export const isDone = (draft: Draft, taskId: string): boolean => entryOf(draft, `tasks/${taskId}/outcome`) === 'done';
const isOfTask = (draft: Draft, key: string): boolean => draft.sheet.tasks.some(({ taskId }) => taskId === key);

/** The rows of a list that go along: those that were added, and those of tasks that were done. */
export const sentRows = (draft: Draft, list: string): string[] => rowsOf(draft, list).filter((key) => !isOfTask(draft, key) || isDone(draft, key));

export const setEntry = (draft: Draft, field: string, value: string): Draft => ({ ...draft, entries: { ...draft.entries, [field]: value } });

export function addRow(draft: Draft, list: string, key: string, start: Readonly<Record<string, string>> = {}): Draft {
  return { ...draft, entries: { ...draft.entries, ...rowEntries(list, key, start) }, rows: { ...draft.rows, [list]: [...rowsOf(draft, list), key] } };
}

export function removeRow(draft: Draft, list: string, key: string): Draft {
  const prefix = rowField(list, key, '');
  return {
    ...draft,
    entries: Object.fromEntries(Object.entries(draft.entries).filter(([field]) => !field.startsWith(prefix))),
    rows: { ...draft.rows, [list]: rowsOf(draft, list).filter((each) => each !== key) },
  };
}
