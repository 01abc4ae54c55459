import { written } from '../../format.js';
import { readDecimal } from '../../readings/hand-fields.js';
import { Field } from '../../ui/field.js';
import { proofWords } from '../../words/proofs.js';
import { POINT_LABELS, type PointPart, pointField } from './calibration-fields.js';

const say = proofWords.calibration;

interface PointRowProps {
  readonly no: number;
  readonly unit: string;
  readonly tolerance: string;
  readonly entries: Readonly<Record<string, string>>;
  readonly fields: readonly {
    readonly part: PointPart;
    readonly field: { readonly id: string; readonly problem: string | undefined };
    readonly control: object;
  }[];
}

/** One point of a calibration; whether it is within tolerance is said as it is typed. */
export function PointRow({ no, unit, tolerance, entries, fields }: PointRowProps) {
  const entered = (part: PointPart) => readDecimal(entries[pointField(no - 1, part)] ?? '');
  const [reference, asFound, limit] = [entered('reference'), entered('asFound'), readDecimal(tolerance)];
  const error = reference === undefined || asFound === undefined ? undefined : Number((asFound - reference).toPrecision(6));
  const inWords = `${written(error ?? 0)} ${unit}`.trim();
  return (
    <fieldset className="group compared">
      <legend>{say.point(no)}</legend>
      {fields.map(({ part, field, control }) => (
        <Field key={part} {...field} label={proofWords.inUnit(POINT_LABELS[part], unit)} hint={part === 'asLeft' ? say.asLeftHint : undefined}>
          {(props) => <input {...props} {...control} inputMode="decimal" autoComplete="off" maxLength={20} />}
        </Field>
      ))}
      {error !== undefined && limit !== undefined && (
        <p role="status" className={Math.abs(error) > limit ? 'caution' : undefined}>
          {Math.abs(error) > limit ? say.outside(inWords) : say.within(inWords)}
        </p>
      )}
    </fieldset>
  );
}
