import { useQueryClient } from '@tanstack/react-query';
import { type ReactNode, useState } from 'react';
import { Field } from '../ui/field.js';
import { Trouble } from '../ui/trouble.js';
import { useEntries } from '../ui/use-entries.js';
import { registryWords } from '../words/registry.js';
import { words } from '../words.js';
import { bodyOf, checkRecord, isAsked, type RecordField, settled, startOf } from './record-fields.js';

interface RecordFormProps {
  readonly fields: readonly RecordField[];
  /** Unset: a new one */
  readonly record?: object;
  readonly button: string;
  readonly send: (body: never) => Promise<{ data?: unknown; error?: unknown; response: Response }>;
  /** What the answer says, in words; unset: that it was saved */
  readonly result?: (answer: never) => ReactNode;
}

/** Makes or edits one record of the registry. */
export function RecordForm({ fields, record, button, send, result }: RecordFormProps) {
  const client = useQueryClient();
  const [said, setSaid] = useState<ReactNode>('');
  const form = useEntries<string, unknown>({
    start: startOf(fields, record),
    check: (entries) => {
      setSaid('');
      return checkRecord(fields, settled(fields, entries));
    },
    labelOf: (name) => fields.find((field) => field.name === name)?.label ?? name,
    send: (entries) => send(bodyOf(fields, settled(fields, entries), record) as never),
    onDone: (answer) => {
      if (record === undefined) form.setEntries(startOf(fields, undefined));
      setSaid(result !== undefined ? result(answer as never) : isKeptOut(answer) ? words.events.differs : registryWords.saved);
      void client.invalidateQueries();
    },
  });
  const entries = settled(fields, form.entries);
  const shown = fields.filter((field) => isAsked(field, entries));
  return (
    <>
      <Trouble troubles={form.troubles} attempt={form.attempt} />
      <form noValidate onSubmit={form.submit}>
        <div className="fields">
          {shown.map(({ name, label, hint, type, optionsOf, options = optionsOf?.(entries) }) => (
            <Field key={name} {...form.field(name)} label={label} hint={hint}>
              {(props) =>
                options !== undefined ? (
                  <select {...props} {...form.control(name)} value={entries[name]}>
                    {options.map((option) => (
                      <option key={option.value} value={option.value}>
                        {option.label}
                      </option>
                    ))}
                  </select>
                ) : type === 'lines' ? (
                  <textarea {...props} {...form.control(name)} rows={2} />
                ) : (
                  <input
                    {...props}
                    {...form.control(name)}
                    type={type === 'day' ? 'date' : type === 'time' ? 'datetime-local' : 'text'}
                    inputMode={type === 'number' ? 'decimal' : undefined}
                    autoComplete="off"
                  />
                )
              }
            </Field>
          ))}
        </div>
        <div className="row">
          <button type="submit" className="main-button" disabled={form.isSending}>
            {button}
          </button>
          <span role="status" className="hint">
            {result === undefined && said}
          </span>
        </div>
      </form>
      {result !== undefined && <div role="status">{said}</div>}
    </>
  );
}

/** What the service answers to an event of the past, when another one was there already. */
function isKeptOut(answer: unknown): boolean {
  const { differing = 0, replaced = 0 } = (answer ?? {}) as { differing?: number; replaced?: number };
  return differing > replaced;
}
