import { fromStored } from '../../shared/units.js';
import { toLocalField } from '../site-time.js';
import { type Draft, pointsOf, rowField, rowsOf, stepField } from './draft.js';
import type { JobReport } from './report-body.js';
import { photoPlace } from './step-answer.js';

/** As the service gives it back: what was left out may be null. */
type SentReport = Omit<JobReport, 'breakdown' | 'serviceState'> & { readonly breakdown?: object | null; readonly serviceState?: string | null };
type Values = Readonly<Record<string, unknown>>;
/** Lists whose rows are not told apart by what they are about. */
const LISTS = ['partsFitted', 'partsRemoved', 'readings', 'cleans', 'integrityTests', 'fibreRepairs', 'followUps'] as const;
const PRESSURES = ['startKpa', 'endKpa'];

/** The draft of a sheet as it was before it was sent: `toReport` of it gives the same report. Its photographs are with the service. */
export function fromReport(empty: Draft, report: SentReport): Draft {
  const { timeZone, tasks } = empty.sheet;
  const entries: Record<string, string> = { ...empty.entries };
  const rows: Record<string, readonly string[]> = { ...empty.rows };
  const photos: Draft['photos'][number][] = [];
  const put = (field: string, value: unknown) => {
    if (typeof value === 'string' || typeof value === 'number' || typeof value === 'boolean') entries[field] = textOf(field, value, empty);
  };
  const photo = (ids: readonly string[] | undefined, place: string) =>
    photos.push(...(ids ?? []).map((id) => ({ id, place, name: '', mediaType: 'image/jpeg' as const, bytes: 0 })));
  const local = (at: unknown) => (typeof at === 'string' ? toLocalField(Date.parse(at), timeZone) : '');

  for (const name of ['minutes', 'travelMinutes', 'travelKm', 'outcome', 'note', 'signedBy', 'serviceState'] as const) put(name, report[name]);
  put('startedAt', local(report.startedAt));
  put('finishedAt', local(report.finishedAt));
  for (const task of report.tasks) {
    for (const part of ['outcome', 'whyNot', 'note'] as const) put(`tasks/${task.taskId}/${part}`, task[part]);
    for (const step of task.steps) {
      const at = (part: string) => stepField(task.taskId, step.no, part);
      for (const part of ['outcome', 'value', 'why'] as const) put(at(part), step[part]);
      if (typeof step.yes === 'boolean') put(at('yes'), step.yes ? 'yes' : 'no');
      photo(step.attachmentIds, photoPlace(task.taskId, step.no));
    }
  }
  const atSteps = new Set(photos.map(({ id }) => id));
  photo(
    report.attachmentIds.filter((id) => !atSteps.has(id)),
    'job',
  );
  const fill = (list: string, sent: readonly object[], ofTask: readonly string[]) => {
    // The row of a task that was done comes first, as it was sent; then what was added.
    const keys = sent.map((_, at) => ofTask[at] ?? `sent ${at + 1}`);
    rows[list] = [...new Set([...rowsOf(empty, list), ...keys])];
    for (const [at, row] of sent.entries()) for (const [part, value] of Object.entries(row)) put(rowField(list, keys[at] ?? '', part), value);
  };
  const isDone = (taskId: string) => report.tasks.some((task) => task.taskId === taskId && task.outcome === 'done');
  const done = (list: string) => rowsOf(empty, list).filter((key) => tasks.some(({ taskId }) => taskId === key) && isDone(key));
  for (const list of LISTS) fill(list, report[list], done(list));
  const planned = report.partsUsed.map((used, at) => {
    const { itemId } = used as Values;
    return typeof itemId === 'string' && rowsOf(empty, 'partsUsed').includes(itemId) ? itemId : `sent ${at + 1}`;
  });
  for (const [at, key] of planned.entries()) if (!('placeId' in (report.partsUsed[at] ?? {}))) entries[rowField('partsUsed', key, 'placeId')] = '';
  fill('partsUsed', report.partsUsed, planned);
  for (const meter of report.meters as readonly Values[]) {
    for (const part of ['value', 'exchangedOldFinal']) put(rowField('meters', String(meter.meterId), part), meter[part]);
  }
  const calibrated = done('calibrations');
  fill('calibrations', report.calibrations, calibrated);
  for (const [at, calibration] of (report.calibrations as readonly { points?: readonly object[] }[]).entries()) {
    const list = pointsOf(calibrated[at] ?? '');
    fill(list, calibration.points ?? [], rowsOf(empty, list));
  }
  for (const [part, value] of Object.entries(report.breakdown ?? {}))
    put(`breakdown/${part}`, part.endsWith('At') || part === 'downFrom' ? local(value) : value);
  return { ...empty, reportId: report.id, entries, rows, photos };
}

function textOf(field: string, value: string | number | boolean, { units }: Draft): string {
  const [list, , part = ''] = field.split('/');
  if (list !== 'integrityTests' || typeof value !== 'number') return String(value);
  const unit = PRESSURES.includes(part) ? units.pressure : part === 'temperatureC' ? units.temperature : undefined;
  return String(unit === undefined ? value : Number(fromStored(value, unit).toPrecision(8)));
}
