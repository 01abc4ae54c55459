import { unitLabel } from '../../shared/unit-choice.js';
import { written } from '../format.js';
import { readDecimal } from '../readings/hand-fields.js';
import { workWords } from '../words/work.js';
import { words } from '../words.js';
import { rowField } from './draft.js';
import { AreaEntry, DecimalEntry, useSheetForm } from './sheet-form.js';

/** The figures of a pressure-decay test, and at once how fast the pressure falls. */
export function IntegrityRecord({ taskId }: { taskId: string }) {
  const { draft } = useSheetForm();
  const field = (part: string) => rowField('integrityTests', taskId, part);
  const { pressure, temperature } = draft.units;
  return (
    <fieldset className="group">
      <legend>{workWords.integrity}</legend>
      <DecimalEntry field={field('settledMinutes')} label={workWords.settled} />
      <DecimalEntry field={field('startKpa')} label={workWords.startPressure} unit={unitLabel(pressure)} />
      <DecimalEntry field={field('endKpa')} label={workWords.endPressure} unit={unitLabel(pressure)} />
      <DecimalEntry field={field('minutes')} label={workWords.testMinutes} />
      <DecimalEntry field={field('temperatureC')} label={workWords.temperature} unit={unitLabel(temperature)} />
      <Decay taskId={taskId} />
      <AreaEntry field={field('note')} label={words.readings.note} />
    </fieldset>
  );
}

function Decay({ taskId }: { taskId: string }) {
  const { draft, entry } = useSheetForm();
  const [start, end, minutes] = ['startKpa', 'endKpa', 'minutes'].map((part) => readDecimal(entry(rowField('integrityTests', taskId, part))));
  if (start === undefined || end === undefined || minutes === undefined || minutes <= 0) return null;
  if (end > start) {
    return (
      <p className="outside" role="status">
        {workWords.rises}
      </p>
    );
  }
  return <p role="status">{workWords.decay(`${written((start - end) / minutes)} ${unitLabel(draft.units.pressure)}`)}</p>;
}
