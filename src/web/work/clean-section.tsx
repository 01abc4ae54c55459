import { words } from '../words.js';
import { rowField } from './draft.js';
import { DecimalEntry, PickEntry, TextEntry } from './sheet-form.js';

const KINDS = [
  { value: 'CEB', label: words.work.ceb },
  { value: 'CIP', label: words.work.cip },
];

/** A clean as it was done. */
export function CleanRow({ row }: { row: string }) {
  const field = (part: string) => rowField('cleans', row, part);
  return (
    <fieldset className="group">
      <legend>{words.work.clean}</legend>
      <PickEntry field={field('kind')} label={words.work.kind} options={KINDS} empty={null} />
      <TextEntry field={field('chemical')} label={words.work.chemical} />
      <DecimalEntry field={field('strengthMgL')} label={words.work.strength} />
      <DecimalEntry field={field('contactMinutes')} label={words.work.contact} />
      <TextEntry field={field('note')} label={words.readings.note} />
    </fieldset>
  );
}
