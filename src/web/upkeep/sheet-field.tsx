import { useId, useState } from 'react';
import { query } from '../api/client.js';
import { Field } from '../ui/field.js';
import { useSettled } from '../ui/use-settled.js';
import { ruleWords as said } from '../words/rules.js';
import { words } from '../words.js';

interface SheetName {
  readonly id: string;
  readonly task: string;
}

interface SheetFieldProps {
  readonly field: { readonly id: string; readonly problem: string | undefined };
  readonly chosen: SheetName;
  readonly onChoose: (sheet: SheetName) => void;
}

const MOST = 200;

/** One of the task sheets. Where there are more than a list can hold, a search field narrows it; what was chosen stays in it. */
export function SheetField({ field, chosen, onChoose }: SheetFieldProps) {
  const findId = useId();
  const [text, setText] = useState('');
  const find = useSettled(text);
  const sheets = query.useQuery(
    'get',
    '/api/task-sheets',
    { params: { query: { limit: MOST, ...(find === '' ? {} : { find }) } } },
    { placeholderData: (before) => before },
  );
  const items = sheets.data?.items ?? [];
  const options = chosen.id === '' || items.some(({ id }) => id === chosen.id) ? items : [chosen, ...items];
  const isLong = text !== '' || (sheets.data?.next ?? null) !== null;
  return (
    <>
      {isLong && (
        <Field id={findId} label={said.findSheet} hint={said.findSheetHint}>
          {(props) => <input {...props} type="search" value={text} maxLength={100} onChange={({ target }) => setText(target.value)} />}
        </Field>
      )}
      <Field {...field} label={said.sheet} hint={said.sheetHint}>
        {(props) => (
          <select
            {...props}
            name="taskSheetId"
            value={chosen.id}
            onChange={({ target }) => onChoose(options.find(({ id }) => id === target.value) ?? { id: '', task: '' })}
          >
            <option value="">{words.choose}</option>
            {options.map(({ id, task }) => (
              <option key={id} value={id}>
                {task}
              </option>
            ))}
          </select>
        )}
      </Field>
    </>
  );
}
