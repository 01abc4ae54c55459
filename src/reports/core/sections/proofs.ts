import { day, number, written } from '../../../shared/format.js';
import { isSignalCode, SIGNALS } from '../../../shared/signals.js';
import { unitLabel } from '../../../shared/unit-choice.js';
import { isUnitCode, UNITS } from '../../../shared/units.js';
import type { Block, Cell } from '../document.js';
import { at, inUnit, type Manner } from '../manner.js';
import type { PeriodCalibration, SkidPeriod } from '../period-data.js';
import { words } from '../words.js';

/** Integrity tests with their judgement, and the fibres that were closed. */
export function integritySection({ tests, repairs }: Pick<SkidPeriod, 'tests' | 'repairs'>, manner: Manner): Block[] {
  const { integrity } = words;
  const unit = manner.units.pressure;
  const rows = tests.map((row): Cell[] => [
    at(row.at, manner),
    inUnit(row.startKpa, unit),
    inUnit(row.decayKpaMin, unit, 2),
    inUnit(row.controlLimitKpaMin, unit, 2),
    number(row.lrv, 2),
    [row.outcome, ...row.reasons].join('\n'),
    row.by,
  ]);
  const label = unitLabel(unit);
  return [
    { kind: 'heading', level: 2, text: integrity.title },
    rows.length === 0
      ? { kind: 'paragraph', text: integrity.none }
      : {
          kind: 'table',
          caption: integrity.tests,
          columns: [
            { name: words.work.when },
            { name: integrity.start(label), numeric: true },
            { name: integrity.decay(label), numeric: true },
            { name: integrity.limit(label), numeric: true },
            { name: integrity.lrv, numeric: true },
            { name: integrity.outcome },
            { name: words.work.by },
          ],
          rows,
        },
    ...repairBlocks(repairs, manner),
  ];
}

function repairBlocks(repairs: SkidPeriod['repairs'], manner: Manner): Block[] {
  if (repairs.length === 0) return [];
  const { repairs: title, fibres, area } = words.integrity;
  return [
    { kind: 'heading', level: 3, text: title },
    {
      kind: 'table',
      caption: title,
      columns: [
        { name: words.work.when },
        { name: words.work.position },
        { name: fibres, numeric: true },
        { name: area, numeric: true },
        { name: words.work.by },
      ],
      rows: repairs.map((row) => [at(row.at, manner), row.positionName, number(row.fibres), number(row.areaLostM2, 2), row.by]),
    },
  ];
}

/** Instruments compared with a reference, and the readings that rest on one that was found wrong. */
export function calibrationSection({ calibrations, doubts }: Pick<SkidPeriod, 'calibrations' | 'doubts'>, manner: Manner): Block[] {
  const { calibration } = words;
  return [
    { kind: 'heading', level: 2, text: calibration.title },
    calibrations.length === 0
      ? { kind: 'paragraph', text: calibration.none }
      : {
          kind: 'table',
          caption: calibration.title,
          columns: [
            words.work.when,
            calibration.instrument,
            calibration.asFound,
            calibration.asLeft,
            calibration.tolerance,
            calibration.reference,
            calibration.next,
          ].map((name) => ({ name })),
          rows: calibrations.map((row) => calibrationRow(row, manner)),
        },
    ...(doubts.length === 0
      ? []
      : ([
          { kind: 'heading', level: 3, text: calibration.doubts },
          {
            kind: 'list',
            items: doubts.map(({ signal, fromAt, toAt, reason }) =>
              calibration.doubt(
                signalName(signal),
                fromAt === null ? calibration.sinceBeginning : at(fromAt, manner),
                toAt === null ? calibration.untilNext : at(toAt, manner),
                reason,
              ),
            ),
          },
        ] as const)),
  ];
}

function calibrationRow(row: PeriodCalibration, manner: Manner): string[] {
  const { error, certificate } = words.calibration;
  const unit = isUnitCode(row.unit) ? UNITS[row.unit].label : row.unit;
  const worst = (value: number): string => `${written(value)} ${unit}`;
  return [
    at(row.at, manner),
    row.positionName,
    error(row.asFound, worst(row.worstAsFound)),
    row.worstAsLeft === null ? row.asLeft : error(row.asLeft, worst(row.worstAsLeft)),
    worst(row.tolerance),
    row.certificateNo === '' ? row.referenceInstrument : certificate(row.referenceInstrument, row.certificateNo),
    day(row.nextOn),
  ];
}

const signalName = (signal: string): string => (isSignalCode(signal) ? SIGNALS[signal].label : signal);
