import { isSignalCode } from '../../../shared/signals.js';
import { isUnitCode } from '../../../shared/units.js';
import type { Schemas } from '../../api/client.js';
import { readDecimal } from '../../readings/hand-fields.js';
import { proofWords } from '../../words/proofs.js';

const say = proofWords.calibration;

type Entries = Readonly<Record<string, string>>;

export const POINT_PARTS = ['reference', 'asFound', 'asLeft'] as const;
export type PointPart = (typeof POINT_PARTS)[number];
export const POINT_LABELS: Readonly<Record<PointPart, string>> = { reference: say.referenceValue, asFound: say.asFound, asLeft: say.asLeft };
export const pointField = (at: number, part: PointPart) => `points/${at}/${part}`;

/** As many as a calibration may have: what is not shown stays empty. */
const MOST_POINTS = 20;
const ALL_POINTS = Array.from({ length: MOST_POINTS }, (_, at) => POINT_PARTS.map((part) => ({ name: pointField(at, part), no: at + 1, part }))).flat();

export const FIELD_LABELS: Readonly<Record<string, string>> = {
  positionId: say.position,
  signal: say.signal,
  unit: say.unit,
  tolerance: say.tolerance,
  referenceInstrument: say.reference,
  certificateNo: say.certificate,
  at: proofWords.at,
  nextOn: say.nextOn,
  note: proofWords.note,
  ...Object.fromEntries(ALL_POINTS.map(({ name, no, part }) => [name, `${say.point(no)}, ${POINT_LABELS[part].toLowerCase()}`])),
};

/** An empty form, at this moment by the clocks at the site. */
export const startOf = (at: string): Record<string, string> => ({ ...Object.fromEntries(Object.keys(FIELD_LABELS).map((name) => [name, ''])), at });

const textOf = (entries: Entries, name: string) => (entries[name] ?? '').trim();
const isFilled = (entries: Entries, at: number) => POINT_PARTS.some((part) => textOf(entries, pointField(at, part)) !== '');

/** What needs a change before it is sent, by field. A point of which nothing was entered is left out; one in between may not be half empty. */
export function checkCalibration(entries: Entries, points: number): Record<string, string> {
  const problems: Record<string, string> = {};
  const need = (name: string, isNumber: boolean) => {
    const label = FIELD_LABELS[name] ?? name;
    if (textOf(entries, name) === '') problems[name] = say.need(label);
    else if (isNumber && readDecimal(textOf(entries, name)) === undefined) problems[name] = say.needNumber(label);
  };
  for (const name of ['positionId', 'unit', 'referenceInstrument', 'at']) need(name, false);
  need('tolerance', true);
  const filled = Array.from({ length: points }, (_, at) => at).filter((at) => isFilled(entries, at));
  if (filled.length === 0) problems[pointField(0, 'reference')] = say.needPoint;
  for (const at of filled) {
    need(pointField(at, 'reference'), true);
    need(pointField(at, 'asFound'), true);
    if (textOf(entries, pointField(at, 'asLeft')) !== '') need(pointField(at, 'asLeft'), true);
  }
  return problems;
}

/** The calibration as it is sent; to be asked only when `checkCalibration` finds nothing. */
export function bodyOf(entries: Entries, points: number): Omit<Schemas['CalibrationDto'], 'at'> & { positionId: string } {
  const value = (name: string) => readDecimal(textOf(entries, name));
  const [signal, unit, nextOn] = ['signal', 'unit', 'nextOn'].map((name) => textOf(entries, name));
  return {
    positionId: textOf(entries, 'positionId'),
    unit: unit !== undefined && isUnitCode(unit) ? unit : '1',
    tolerance: value('tolerance') ?? 0,
    referenceInstrument: textOf(entries, 'referenceInstrument'),
    certificateNo: textOf(entries, 'certificateNo'),
    note: textOf(entries, 'note'),
    ...(signal !== undefined && isSignalCode(signal) ? { signal } : {}),
    ...(nextOn ? { nextOn } : {}),
    points: Array.from({ length: points }, (_, at) => at).flatMap((at) =>
      isFilled(entries, at)
        ? [
            {
              reference: value(pointField(at, 'reference')) ?? 0,
              asFound: value(pointField(at, 'asFound')) ?? 0,
              asLeft: value(pointField(at, 'asLeft')) ?? null,
            },
          ]
        : [],
    ),
  };
}
