import { viewOf } from '../app/index.js';
import { dayOrNull } from '../registry/index.js';
import { CalibrationView, ComparedPointView, DoubtfulTimeView } from './calibrations.dto.js';
import type { CalibrationRow, DoubtfulRow } from './calibrations.repository.js';
import { type CalibrationPoint, calibrationFigures, type ToleranceCheck } from './core/calibration-figures.js';

export function toCalibrationView(row: CalibrationRow, doubt: DoubtfulRow | null): CalibrationView {
  const { id, skidId, positionId, position, signal, unit, at, by, referenceInstrument, certificateNo, tolerance, worstAsFound, worstAsLeft, nextOn, note } =
    row;
  const points = row.points as unknown as CalibrationPoint[];
  const figures = calibrationFigures(points, tolerance);
  return viewOf(CalibrationView, {
    id,
    skidId,
    positionId,
    positionName: position.name,
    signal,
    unit,
    at,
    by,
    referenceInstrument,
    certificateNo,
    tolerance,
    points: points.map((point) => viewOf(ComparedPointView, point)),
    worstAsFound,
    worstAsLeft,
    asFound: row.asFound as ToleranceCheck,
    asLeft: row.asLeft as ToleranceCheck,
    zeroError: figures.kind === 'figures' ? figures.zeroError : worstAsFound,
    spanError: figures.kind === 'figures' ? figures.spanError : null,
    nextOn: dayOrNull(nextOn),
    note,
    doubtful: doubt === null ? null : toDoubtView(doubt),
  });
}

export const toDoubtView = ({ signal, fromAt, toAt, error, reason }: DoubtfulRow): DoubtfulTimeView =>
  viewOf(DoubtfulTimeView, { signal, fromAt, toAt, error, reason });
