import { isSignalCode, SIGNALS, type SignalCode } from '../../shared/signals.js';
import { written } from '../format.js';
import { newUuid } from '../new-uuid.js';
import { readDecimal } from '../readings/hand-fields.js';
import { unitsOf } from '../unit-options.js';
import { workWords } from '../words/work.js';
import { words } from '../words.js';
import { pointsOf, rowField, rowsOf } from './draft.js';
import { DecimalEntry, type Option, PickEntry, TextEntry, useSheetForm } from './sheet-form.js';
import { unitName } from './step-answer.js';

export const SIGNAL_OPTIONS = (Object.keys(SIGNALS) as SignalCode[]).map((value) => ({ value, label: SIGNALS[value].label }));

/** The units in which a signal can be written. */
export const unitOptions = (signal: string): Option[] =>
  isSignalCode(signal) ? unitsOf(SIGNALS[signal].dimension).map((code) => ({ value: code, label: unitName(code) || code })) : [];

/** An instrument compared with a reference, point by point; whether each point is within tolerance is said at once. */
export function CalibrationRecord({ taskId }: { taskId: string }) {
  const { draft, entry, add } = useSheetForm();
  const field = (part: string) => rowField('calibrations', taskId, part);
  const unit = unitName(entry(field('unit')));
  return (
    <fieldset className="group">
      <legend>{workWords.calibration}</legend>
      <PickEntry field={field('signal')} label={workWords.signal} options={SIGNAL_OPTIONS} />
      <PickEntry field={field('unit')} label={workWords.unit} options={unitOptions(entry(field('signal')))} />
      <DecimalEntry field={field('tolerance')} label={workWords.tolerance} unit={unit} />
      <TextEntry field={field('referenceInstrument')} label={workWords.reference} />
      <TextEntry field={field('certificateNo')} label={workWords.certificate} />
      {rowsOf(draft, pointsOf(taskId)).map((key, at) => (
        <Point key={key} taskId={taskId} row={key} no={at + 1} unit={unit} />
      ))}
      <button type="button" onClick={() => add(pointsOf(taskId), newUuid())}>
        {workWords.addPoint}
      </button>
      <TextEntry field={field('nextOn')} label={workWords.nextOn} type="date" />
      <TextEntry field={field('note')} label={words.readings.note} />
    </fieldset>
  );
}

function Point({ taskId, row, no, unit }: { taskId: string; row: string; no: number; unit: string }) {
  const { entry } = useSheetForm();
  const field = (part: string) => rowField(pointsOf(taskId), row, part);
  const [reference, asFound] = ['reference', 'asFound'].map((part) => readDecimal(entry(field(part))));
  const tolerance = readDecimal(entry(rowField('calibrations', taskId, 'tolerance')));
  const error = reference === undefined || asFound === undefined ? undefined : asFound - reference;
  const isOut = error !== undefined && tolerance !== undefined && Math.abs(error) > tolerance;
  const inWords = `${written(error ?? 0)} ${unit}`.trim();
  return (
    <fieldset className="group point">
      <legend>{workWords.point(no)}</legend>
      <DecimalEntry field={field('reference')} label={workWords.referenceValue} />
      <DecimalEntry field={field('asFound')} label={workWords.asFound} />
      <DecimalEntry field={field('asLeft')} label={workWords.asLeft} />
      {error !== undefined && tolerance !== undefined && (
        <p className={isOut ? 'outside' : undefined} role="status">
          {isOut ? workWords.outOfTolerance(inWords) : workWords.inTolerance(inWords)}
        </p>
      )}
    </fieldset>
  );
}
