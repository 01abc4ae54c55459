import { useId, useState } from 'react';
import { query, type Schemas } from '../api/client.js';
import { Field } from '../ui/field.js';
import { useSettled } from '../ui/use-settled.js';
import { jobWords } from '../words/jobs.js';

type JobInOrder = Schemas['JobInOrderView'];
type Offered = JobInOrder & { readonly skidName?: string };

interface AfterFieldProps {
  readonly clientId: string;
  /** The job that comes later, which is not offered; unset: it is only being made */
  readonly jobId?: string;
  readonly now: JobInOrder | null;
  readonly field: { readonly id: string; readonly problem: string | undefined };
  readonly value: string;
  readonly onChoose: (jobId: string) => void;
}

const MOST = 50;

/** A job to be done of the same client, or none. Where there are more than a list can hold, a search field narrows it; what was chosen stays in it. */
export function AfterField({ clientId, jobId, now, field, value, onChoose }: AfterFieldProps) {
  const findId = useId();
  const [text, setText] = useState('');
  const [chosen, setChosen] = useState<Offered | null>(now);
  const find = useSettled(text);
  const jobs = query.useQuery(
    'get',
    '/api/jobs',
    { params: { query: { clientId, state: 'to do', limit: MOST, ...(find === '' ? {} : { find }) } } },
    { placeholderData: (before) => before },
  );
  const found: readonly Offered[] = (jobs.data?.items ?? []).filter(({ id }) => id !== jobId);
  const options = chosen === null || found.some(({ id }) => id === chosen.id) ? found : [chosen, ...found];
  const isLong = text !== '' || (jobs.data?.next ?? null) !== null;
  return (
    <>
      {isLong && (
        <Field id={findId} label={jobWords.findAfter} hint={jobWords.findAfterHint}>
          {(props) => <input {...props} type="search" value={text} maxLength={100} onChange={({ target }) => setText(target.value)} />}
        </Field>
      )}
      <Field {...field} label={jobWords.afterWhich} hint={jobWords.afterHint}>
        {(props) => (
          <select
            {...props}
            name="afterJobId"
            value={value}
            onChange={({ target }) => {
              setChosen(options.find(({ id }) => id === target.value) ?? null);
              onChoose(target.value);
            }}
          >
            <option value="">{jobWords.afterNone}</option>
            {options.map(({ id, no, title, skidName }) => (
              <option key={id} value={id}>
                {[jobWords.named(no, title), skidName].filter(Boolean).join(', ')}
              </option>
            ))}
          </select>
        )}
      </Field>
    </>
  );
}
