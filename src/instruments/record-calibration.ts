import { Injectable } from '@nestjs/common';
import {
  type Caller,
  Clock,
  type FieldProblem,
  InvalidRequest,
  type KeyedRequest,
  KeyedWork,
  NotFound,
  type Reader,
  Recompute,
  runnerOf,
} from '../app/index.js';
import { dateOf, momentOf } from '../registry/index.js';
import { localDay } from '../shared/local-day.js';
import { isSignalCode, type SignalCode } from '../shared/signals.js';
import { isUnitCode, UNITS } from '../shared/units.js';
import { toCalibrationView } from './calibration-view.js';
import type { CalibrationDto, CalibrationView } from './calibrations.dto.js';
import {
  type CalibrationRow,
  calibrationsOfReport,
  createCalibration,
  deleteCalibrations,
  doubtsOf,
  findPlace,
  historyOfInstrument,
  type InstrumentPlace,
  isCalibratedAt,
  replaceDoubts,
} from './calibrations.repository.js';
import { calibrationFaults } from './core/calibration-faults.js';
import { type CalibrationFigures, calibrationFigures } from './core/calibration-figures.js';
import { errorInWords } from './core/doubt-in-words.js';
import { doubtfulTimes } from './core/doubtful-times.js';

/** What a job sheet says of the calibration of one instrument: the request of the API, its place and its moment. */
export interface CalibrationToRecord extends Omit<CalibrationDto, 'at'> {
  readonly positionId: string;
  readonly at: Date;
}

interface Recorded {
  readonly by: string;
  readonly reportId: string | null;
}

/** Records comparisons of instruments with a reference, on their own or in the transaction of the job that did them, and marks the readings that they put in doubt. */
@Injectable()
export class RecordCalibration {
  constructor(
    private readonly work: KeyedWork,
    private readonly recompute: Recompute,
    private readonly clock: Clock,
  ) {}

  run(caller: Caller, key: KeyedRequest, positionId: string, { at, ...told }: CalibrationDto): Promise<CalibrationView> {
    return this.work.run(key, async (tx) => {
      const place = await findPlace(tx, positionId);
      if (place === null) throw new NotFound('position', positionId);
      const calibration = { ...told, positionId, at: momentOf(at ?? undefined, this.clock.now()) };
      const faults = await faultsAt(tx, place, calibration);
      if (faults.length > 0) throw new InvalidRequest('The calibration has fields that need a change', faults);
      return this.record(tx, calibration, { by: caller.name, reportId: null });
    });
  }

  /** Everything that cannot be so, with a pointer into the calibration. Whether the position is one of the skid is for the caller to see. */
  async faults(tx: Reader, calibration: CalibrationToRecord): Promise<FieldProblem[]> {
    const place = await findPlace(tx, calibration.positionId);
    return place === null ? [] : faultsAt(tx, place, calibration);
  }

  /** Stores what `faults` found nothing wrong with. */
  async record(tx: Reader, calibration: CalibrationToRecord, { by, reportId }: Recorded): Promise<CalibrationView> {
    const { positionId, at, unit, tolerance, referenceInstrument, certificateNo = '', note = '', nextOn = null } = calibration;
    const place = await findPlace(tx, positionId);
    if (place === null) throw new NotFound('position', positionId);
    const points = pointsOf(calibration);
    const signal = signalOf(calibration, place);
    const figures = calibrationFigures(points, tolerance);
    if (signal === null || figures.kind === 'no-points') throw new InvalidRequest('A calibration needs a signal and at least one point');
    const { worstAsFound, worstAsLeft, asFound, asLeft } = figures;
    const { skidId, clientId } = place;
    const instrument = { skidId, clientId, positionId, signal };
    const compared = { unit, tolerance, referenceInstrument, certificateNo, points: points as object[], worstAsFound, worstAsLeft, asFound, asLeft };
    const row = await createCalibration(tx, { ...instrument, ...compared, at, by, reportId, note, nextOn: nextOn === null ? null : dateOf(nextOn) });
    await judgeReadings(tx, place, signal);
    await this.recompute.later(skidId, runnerOf(tx));
    const [doubt = null] = await doubtsOf(tx, [row.id]);
    return toCalibrationView(row, doubt);
  }

  /** Takes out what a job sheet recorded that counts no longer, and judges the readings by what is left. */
  async takeBack(tx: Reader, reportId: string): Promise<void> {
    const rows = await calibrationsOfReport(tx, reportId);
    await deleteCalibrations(
      tx,
      rows.map(({ id }) => id),
    );
    for (const { positionId, signal, skidId } of rows) {
      const place = await findPlace(tx, positionId);
      if (place !== null && isSignalCode(signal)) await judgeReadings(tx, place, signal);
      await this.recompute.later(skidId, runnerOf(tx));
    }
  }
}

async function faultsAt(tx: Reader, place: InstrumentPlace, calibration: CalibrationToRecord): Promise<FieldProblem[]> {
  const { at, unit, tolerance, nextOn = null } = calibration;
  const points = pointsOf(calibration);
  const faults = calibrationFaults({ signal: signalOf(calibration, place), unit, tolerance, points, day: localDay(at, place.timeZone), nextOn });
  const known = await isCalibratedAt(tx, place.id, at);
  const twice = { pointer: '#/at', message: `${place.name} has a calibration of this moment already: give another time, or leave this one out` };
  return [...faults.map(({ field, message }) => ({ pointer: `#/${field}`, message })), ...(known ? [twice] : [])];
}

const pointsOf = ({ points }: CalibrationToRecord) => points.map(({ reference, asFound, asLeft = null }) => ({ reference, asFound, asLeft }));

function signalOf({ signal }: CalibrationToRecord, place: InstrumentPlace): SignalCode | null {
  const code = signal ?? place.signal;
  return code !== null && isSignalCode(code) ? code : null;
}

/** Which readings of the instrument are doubtful by all its calibrations: one that is entered late changes what those around it say. */
async function judgeReadings(tx: Reader, { id, skidId, clientId, timeZone }: InstrumentPlace, signal: SignalCode): Promise<void> {
  const { checks, fittedAt } = await historyOfInstrument(tx, id, signal);
  const times = doubtfulTimes(
    checks.map((check) => ({ id: check.id, at: check.at, foundInTolerance: isIn(check.asFound), leftInTolerance: isIn(check.asLeft) })),
    fittedAt,
  );
  const doubts = times.flatMap(({ checkId, from, to }) => {
    const check = checks.find((each) => each.id === checkId);
    return check === undefined ? [] : [{ clientId, skidId, signal, fromAt: from, toAt: to, calibrationId: checkId, ...errorOf(check, signal, timeZone) }];
  });
  await replaceDoubts(
    tx,
    checks.map((check) => check.id),
    doubts,
  );
}

const isIn = (check: string): boolean => check === ('in tolerance' satisfies CalibrationFigures['asFound']);

/** The error in the stored unit of the signal, and in the unit of the comparison in words. */
function errorOf(check: Omit<CalibrationRow, 'position'>, signal: SignalCode, timeZone: string): { error: number; reason: string } {
  const found = !isIn(check.asFound);
  const error = found ? check.worstAsFound : (check.worstAsLeft ?? check.worstAsFound);
  const unit = isUnitCode(check.unit) ? check.unit : 'state';
  const reason = errorInWords({ signal, error, unit, when: found ? 'found' : 'left', day: localDay(check.at, timeZone) });
  return { error: error * UNITS[unit].factor, reason };
}
