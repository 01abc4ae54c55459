import { useId } from 'react';
import { moment, written } from '../format.js';
import { readDecimal } from '../readings/hand-fields.js';
import { workWords } from '../words/work.js';
import { words } from '../words.js';
import { entryOf, rowField } from './draft.js';
import { DecimalEntry, TickEntry, useSheetForm } from './sheet-form.js';
import type { Sheet } from './sheet-types.js';

/** Hour meters and counters of the skid. One that reads less than before is questioned at once. */
export function MetersSection() {
  const { draft } = useSheetForm();
  const headId = useId();
  if (draft.sheet.meters.length === 0) return null;
  return (
    <section className="block" aria-labelledby={headId}>
      <h2 id={headId}>{workWords.meters}</h2>
      {draft.sheet.meters.map((meter) => (
        <Meter key={meter.meterId} meter={meter} />
      ))}
    </section>
  );
}

function Meter({ meter: { meterId, positionName, kind, last } }: { meter: Sheet['meters'][number] }) {
  const { draft, problems } = useSheetForm();
  const field = (part: string) => rowField('meters', meterId, part);
  const value = readDecimal(entryOf(draft, field('value')));
  const isExchanged = entryOf(draft, field('exchanged')) === 'true';
  const isLower = value !== undefined && last !== null && value < last.value;
  return (
    <>
      <DecimalEntry
        field={field('value')}
        label={workWords.meter(positionName, kind)}
        unit={kind === 'run hours' ? 'h' : ''}
        hint={last === null ? words.readings.neverRead : workWords.last(written(last.value), moment(last.at, draft.sheet.timeZone))}
      />
      {isLower && !isExchanged && (
        <p className="outside" role="status">
          {workWords.lower(written(last.value))}
        </p>
      )}
      {(isLower || isExchanged || problems[field('exchangedOldFinal')] !== undefined) && <TickEntry field={field('exchanged')} label={workWords.exchanged} />}
      {isExchanged && <DecimalEntry field={field('exchangedOldFinal')} label={workWords.oldFinal} />}
    </>
  );
}
