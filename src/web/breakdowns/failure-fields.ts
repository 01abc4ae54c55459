import { FAILURE_MECHANISMS, FAILURE_MODES } from '../../shared/failure-terms.js';
import { SEVERITIES, SEVERITY_LABELS } from '../../shared/work.js';
import type { RecordField } from '../registry/record-fields.js';
import { breakdownWords } from '../words/breakdowns.js';

const say = breakdownWords;
const unknown = { value: '', label: say.unknown };

export const TIMES = ['downFrom', 'restoredAt'] as const;

const restored = (timeZone: string): RecordField => ({ name: 'restoredAt', label: say.restoredAt, hint: say.byZone(timeZone), type: 'time', empty: 'null' });
const FAILURE: readonly RecordField[] = [
  { name: 'failureMode', label: say.mode, options: [unknown, ...FAILURE_MODES.map((value) => ({ value, label: value }))] },
  {
    name: 'mechanism',
    label: say.mechanism,
    options: [unknown, ...FAILURE_MECHANISMS.map(({ code, label, group }) => ({ value: code, label: `${code} ${label} (${group.toLowerCase()})` }))],
  },
  { name: 'cause', label: say.cause, type: 'lines' },
];

export const editFields = (timeZone: string): readonly RecordField[] => [
  { name: 'severity', label: say.severity, options: SEVERITIES.map((value) => ({ value, label: SEVERITY_LABELS[value] })), required: true },
  { name: 'downFrom', label: say.downFrom, hint: say.downHint, type: 'time', empty: 'null' },
  restored(timeZone),
  { name: 'repairMinutes', label: say.repairMinutes, type: 'number' },
  ...FAILURE,
  { name: 'remedy', label: say.remedy, type: 'lines' },
];

const ENDED = [
  { value: 'no', label: say.endedNo },
  { value: 'yes', label: say.endedYes },
];
export const telephoneFields = (timeZone: string): readonly RecordField[] => [
  { name: 'note', label: say.telephoneNote, type: 'lines', required: true },
  { name: 'ended', label: say.ended, options: ENDED, start: 'no' },
  { ...restored(timeZone), empty: 'left out' },
  ...FAILURE.map((field): RecordField => ({ ...field, empty: 'left out' })),
];
