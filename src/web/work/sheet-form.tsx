import { createContext, type ReactNode, useContext } from 'react';
import { Field } from '../ui/field.js';
import { workWords } from '../words/work.js';
import { words } from '../words.js';
import { addRow, type Draft, entryOf, removeRow, setEntry } from './draft.js';

/** The sheet that is being filled in, for every part of its form. */
export interface SheetForm {
  readonly draft: Draft;
  readonly change: (change: (before: Draft) => Draft) => void;
  readonly problems: Readonly<Record<string, string>>;
  readonly addPhoto: (file: File, place: string) => Promise<'added' | 'no picture'>;
  readonly addDrawing: (drawing: Blob, place: string) => Promise<void>;
  readonly removePhotos: (ids: readonly string[]) => void;
}

export const SheetFormContext = createContext<SheetForm | null>(null);

export function useSheetForm() {
  const form = useContext(SheetFormContext);
  if (form === null) throw new Error('A part of a job sheet stands outside of its form');
  const { draft, change } = form;
  return {
    ...form,
    entry: (field: string) => entryOf(draft, field),
    set: (field: string, value: string) => change((before) => setEntry(before, field, value)),
    add: (list: string, key: string, start: Record<string, string> = {}) => change((before) => addRow(before, list, key, start)),
    remove: (list: string, key: string) => change((before) => removeRow(before, list, key)),
  };
}

/** The id of the control of a field. */
export const controlId = (field: string): string => `sheet-${field.replaceAll(/[^\w-]/g, '-')}`;

interface EntryProps {
  readonly field: string;
  readonly label: string;
  readonly hint?: ReactNode;
}

function useControl(field: string) {
  const { draft, problems, set } = useSheetForm();
  return {
    field: { id: controlId(field), problem: problems[field] },
    control: { value: draft.entries[field] ?? '', onChange: (event: { target: { value: string } }) => set(field, event.target.value) },
  };
}

export function TextEntry({
  field,
  label,
  hint,
  type = 'text',
  autoComplete = 'off',
}: EntryProps & { type?: 'text' | 'date' | 'datetime-local'; autoComplete?: string }) {
  const own = useControl(field);
  return (
    <Field {...own.field} label={label} hint={hint}>
      {(props) => <input {...props} {...own.control} type={type} autoComplete={autoComplete} maxLength={100} />}
    </Field>
  );
}

export function DecimalEntry({ field, label, hint, unit = '' }: EntryProps & { unit?: string }) {
  const own = useControl(field);
  return (
    <Field {...own.field} label={workWords.inUnit(label, unit)} hint={hint}>
      {(props) => <input {...props} {...own.control} className="short" inputMode="decimal" autoComplete="off" maxLength={20} />}
    </Field>
  );
}

export function AreaEntry({ field, label, hint, most = 500 }: EntryProps & { most?: number }) {
  const own = useControl(field);
  return (
    <Field {...own.field} label={label} hint={hint}>
      {(props) => <textarea {...props} {...own.control} rows={2} maxLength={most} />}
    </Field>
  );
}

export interface Option {
  readonly value: string;
  readonly label: string;
}

export function PickEntry({ field, label, hint, options, empty = words.choose }: EntryProps & { options: readonly Option[]; empty?: string | null }) {
  const own = useControl(field);
  return (
    <Field {...own.field} label={label} hint={hint}>
      {(props) => (
        <select {...props} {...own.control}>
          {empty !== null && <option value="">{empty}</option>}
          {options.map((option) => (
            <option key={option.value} value={option.value}>
              {option.label}
            </option>
          ))}
        </select>
      )}
    </Field>
  );
}

/** A few answers side by side, wide enough for a thumb in a glove. */
export function ChoiceEntry({ field, label, options, isLabelUnseen = false }: EntryProps & { options: readonly Option[]; isLabelUnseen?: boolean }) {
  const { draft, problems, set } = useSheetForm();
  const problem = problems[field];
  return (
    <fieldset className={problem === undefined ? 'choice answers' : 'choice answers wrong'}>
      <legend className={isLabelUnseen ? 'unseen' : undefined}>{label}</legend>
      {problem !== undefined && (
        <p className="fix">
          <span className="unseen">{words.forms.problem} </span>
          {problem}
        </p>
      )}
      {options.map(({ value, label: name }, at) => (
        <label key={value}>
          <input
            type="radio"
            id={at === 0 ? controlId(field) : undefined}
            name={controlId(field)}
            checked={draft.entries[field] === value}
            onChange={() => set(field, value)}
          />
          <span>{name}</span>
        </label>
      ))}
    </fieldset>
  );
}

export function TickEntry({ field, label }: EntryProps) {
  const { draft, set } = useSheetForm();
  return (
    <label className="tick">
      <input
        type="checkbox"
        id={controlId(field)}
        checked={draft.entries[field] === 'true'}
        onChange={(event) => set(field, event.target.checked ? 'true' : '')}
      />
      {label}
    </label>
  );
}
