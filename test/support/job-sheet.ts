import { type Draft, setEntry, startDraft } from '../../src/web/work/draft.js';
import type { Place, Sheet, StepOfSheet } from '../../src/web/work/sheet-types.js';

const step = (no: number, kind: StepOfSheet['kind'], about: Partial<StepOfSheet> = {}): StepOfSheet => ({
  no,
  kind,
  text: `Step number ${no}`,
  safety: false,
  signal: null,
  unit: null,
  low: null,
  high: null,
  last: null,
  ...about,
});

const task = {
  reason: '',
  note: '',
  waterOffMinutes: 0,
  expectedMinutes: 30,
  tools: [],
  instruments: [],
  chemicals: [],
  parts: [],
  steps: [],
  fitted: null,
  positionId: null,
  positionName: null,
};
const ring = { itemId: 'ring', code: 'ORG-90', name: 'O-ring of the housing', unit: 'C62' };
const cartridge = { itemId: 'cart', code: 'CART-1', name: 'Cartridge', unit: 'C62' };

/** A sheet with a task of each kind that has a record of its own. */
const SHEET: Sheet = {
  jobId: 'job',
  no: 411,
  version: 1,
  kind: 'service',
  title: 'Yearly service',
  request: '',
  state: 'open',
  skidId: 'skid',
  skidName: 'UF 1',
  siteName: 'Works',
  clientName: 'Client',
  timeZone: 'Europe/Madrid',
  cautions: [],
  tasks: [
    {
      ...task,
      taskId: 'grease',
      task: 'Grease the bearings',
      kind: 'service',
      steps: [step(1, 'check', { safety: true }), step(2, 'do'), step(3, 'reading', { unit: 'bar', low: 0.8, high: 1.5 }), step(4, 'photograph')],
    },
    {
      ...task,
      taskId: 'change',
      task: 'Change the cartridges',
      kind: 'part change',
      positionId: 'housing',
      parts: [
        { ...cartridge, quantity: '7' },
        { ...ring, quantity: '1' },
      ],
    },
    { ...task, taskId: 'test', task: 'Integrity test', kind: 'integrity test' },
    { ...task, taskId: 'check', task: 'Calibrate', kind: 'calibration', positionId: 'gauge' },
    { ...task, taskId: 'clean', task: 'Recovery clean (CIP)', kind: 'clean', chemicals: [{ chemical: 'citric acid', litres: 5, strength: '' }] },
  ],
  meters: [{ meterId: 'hours', positionName: 'Feed pump', kind: 'run hours', last: { value: 100, at: '2026-10-01T08:00:00Z' } }],
  positions: [],
};

const PLACES: Place[] = [
  { id: 'store', name: 'Store', kind: 'store', stock: [] },
  { id: 'van', name: 'Van', kind: 'van', stock: [{ ...cartridge, onHand: '9' }] },
];

export const emptyDraft = (): Draft =>
  startDraft({
    reportId: 'report',
    person: { id: 'jo', name: 'Jo Fell' },
    sheet: SHEET,
    places: PLACES,
    units: { pressure: 'bar', temperature: 'Cel' },
  });

export const filled = (draft: Draft, entries: Readonly<Record<string, string>>): Draft =>
  Object.entries(entries).reduce((next, [field, value]) => setEntry(next, field, value), draft);

/** What every sheet needs, whatever its tasks. */
export const SIGNED = { startedAt: '2026-11-25T08:30', finishedAt: '2026-11-25T10:00', minutes: '90', signedBy: 'M. Soto' };
