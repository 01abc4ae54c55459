import { useQueryClient } from '@tanstack/react-query';
import { useRef, useState } from 'react';
import { api, type Schemas } from '../api/client.js';
import { Field } from '../ui/field.js';
import { Trouble } from '../ui/trouble.js';
import { useEntries } from '../ui/use-entries.js';
import { useRequestKey } from '../ui/use-request-key.js';
import { planWords } from '../words/plan.js';
import { whatIfWords } from '../words/what-if.js';
import { SearchProgress } from './search-progress.js';
import { useStoppable } from './use-stoppable.js';

const WEEKS = [1, 2, 3, 4, 6, 8];

/** From when and for how long a plan is searched. */
export function SearchForm({ onFound }: { onFound: (plan: Schemas['PlanView']) => void }) {
  const client = useQueryClient();
  const keyOf = useRequestKey();
  const attempts = useRef(0);
  const [wasStopped, setStopped] = useState(false);
  const { send, stop } = useStoppable();
  const form = useEntries({
    start: { firstDay: '', days: '2', seconds: '3' },
    check: ({ seconds }) => (/^(1?\d|20)$/.test(seconds.trim()) ? {} : { seconds: planWords.badSeconds }),
    send: ({ firstDay, days, seconds }) => {
      setStopped(false);
      const body = { ...(firstDay === '' ? {} : { firstDay }), days: Number(days) * 7, seconds: Number(seconds) };
      const header = keyOf({ ...body, at: attempts.current });
      return send((signal) => api.POST('/api/plans', { body, params: { header }, signal }));
    },
    onDone: (plan) => {
      // The same search again is another plan: what it is made from may have changed.
      attempts.current += 1;
      if (plan === undefined) return setStopped(true);
      onFound(plan);
      void client.invalidateQueries();
    },
  });
  return (
    <section className="no-print">
      <div className="block">
        <Trouble troubles={form.troubles} attempt={form.attempt} />
        <form noValidate className="search-plan" onSubmit={form.submit}>
          <Field {...form.field('firstDay')} label={planWords.from} hint={planWords.fromHint}>
            {(props) => <input {...props} {...form.control('firstDay')} type="date" />}
          </Field>
          <Field {...form.field('days')} label={planWords.weeks}>
            {(props) => (
              <select {...props} {...form.control('days')}>
                {WEEKS.map((weeks) => (
                  <option key={weeks} value={weeks}>
                    {planWords.weeksOf(weeks)}
                  </option>
                ))}
              </select>
            )}
          </Field>
          <Field {...form.field('seconds')} label={planWords.seconds} hint={planWords.secondsHint}>
            {(props) => <input {...props} {...form.control('seconds')} className="short" inputMode="numeric" autoComplete="off" />}
          </Field>
          <p>
            <button type="submit" className="main-button" disabled={form.isSending}>
              {planWords.search}
            </button>
          </p>
        </form>
        {form.isSending ? (
          <SearchProgress seconds={Number(form.entries.seconds) || 0} onStop={stop} />
        ) : (
          <p role="status" className="hint">
            {wasStopped && whatIfWords.stopped}
          </p>
        )}
      </div>
    </section>
  );
}
