import { workWords } from '../words/work.js';
import { words } from '../words.js';
import { rowField } from './draft.js';
import { DecimalEntry, PickEntry, TextEntry } from './sheet-form.js';

const KINDS = [
  { value: 'CEB', label: workWords.ceb },
  { value: 'CIP', label: workWords.cip },
];

/** A clean as it was done. */
export function CleanRow({ row }: { row: string }) {
  const field = (part: string) => rowField('cleans', row, part);
  return (
    <fieldset className="group">
      <legend>{workWords.clean}</legend>
      <PickEntry field={field('kind')} label={workWords.kind} options={KINDS} empty={null} />
      <TextEntry field={field('chemical')} label={workWords.chemical} />
      <DecimalEntry field={field('strengthMgL')} label={workWords.strength} />
      <DecimalEntry field={field('contactMinutes')} label={workWords.contact} />
      <TextEntry field={field('note')} label={words.readings.note} />
    </fieldset>
  );
}
