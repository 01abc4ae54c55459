import { describe, expect, test } from '@jest/globals';
import type { SheetStep } from '../../shared/task-sheet.js';
import { type ReportToSum, summaryOf } from './report-summary.js';

const step = (no: number, text: string, about: Partial<SheetStep> = {}): SheetStep => ({
  no,
  kind: 'do',
  text,
  safety: false,
  signal: null,
  unit: null,
  low: null,
  high: null,
  ...about,
});
const NAMES = {
  tasks: [
    {
      id: 't',
      task: 'Change the cartridges',
      positionName: 'F-01',
      steps: [step(1, 'Isolate'), step(2, 'Pressure drop', { unit: 'kPa', low: 0, high: 30 }), step(3, 'Housing tight?')],
    },
  ],
  items: new Map([['i', 'Cartridge 5 µm']]),
  positions: new Map([['p', 'F-01']]),
  meters: new Map([['m', 'Run hours of P-101']]),
  signals: () => 'Feed pressure',
};
const NOTHING: ReportToSum = {
  tasks: [],
  partsUsed: [],
  partsFitted: [],
  partsRemoved: [],
  meters: [],
  readings: [],
  cleans: [],
  integrityTests: [],
  fibreRepairs: [],
  calibrations: [],
  note: '',
};

describe('the summary of a report', () => {
  test('names what was done, and marks what somebody should look at', () => {
    const steps = [
      { no: 2, outcome: 'done' as const, value: 45 },
      { no: 3, outcome: 'done' as const, yes: false },
    ];
    const { tasks } = summaryOf({ ...NOTHING, tasks: [{ taskId: 't', outcome: 'done', note: 'Housing scratched', steps }] }, NAMES);
    expect(tasks).toEqual([
      {
        task: 'Change the cartridges',
        positionName: 'F-01',
        outcome: 'done',
        note: 'Housing scratched',
        steps: [
          { name: 'Isolate', value: '', mark: 'left out' },
          { name: 'Pressure drop', value: '45 kPa', mark: 'outside its limits' },
          { name: 'Housing tight?', value: 'no', mark: 'answered no' },
        ],
      },
    ]);
  });

  test('says of parts what and how many, not whose stock they came from', () => {
    const { lines } = summaryOf(
      {
        ...NOTHING,
        partsUsed: [{ itemId: 'i', quantity: '2' }],
        partsFitted: [{ positionId: 'p', itemId: 'i', setCount: 7, lot: 'L-9', serialNumber: null }],
        meters: [{ meterId: 'm', value: 3, exchangedOldFinal: 5_120 }],
        cleans: [{ kind: 'CIP', chemical: 'citric acid', strengthMgL: 20_000, contactMinutes: null }],
      },
      NAMES,
    );
    expect(lines.map(({ name, value }) => `${name}: ${value}`)).toEqual([
      'Part used: 2 × Cartridge 5 µm',
      'Fitted at F-01: 7 × Cartridge 5 µm, lot L-9',
      'Run hours of P-101: exchanged at 5120, the new one shows 3',
      'CIP: citric acid, 20000 mg/L',
    ]);
  });
});
