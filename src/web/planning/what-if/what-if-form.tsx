import type { Schemas } from '../../api/client.js';
import { Field } from '../../ui/field.js';
import { Trouble } from '../../ui/trouble.js';
import type { useEntries } from '../../ui/use-entries.js';
import { planWords } from '../../words/plan.js';
import { whatIfWords as said } from '../../words/what-if.js';
import { words } from '../../words.js';
import { SearchProgress } from '../search-progress.js';
import { WHAT_IFS, type WhatIfEntries, type WorkToDefer } from './what-if-fields.js';

interface FormProps {
  readonly form: ReturnType<typeof useEntries<keyof WhatIfEntries, Schemas['WhatIfView']>>;
  /** Whose home and hours are known */
  readonly people: readonly Schemas['PersonPlanningView'][];
  readonly works: readonly WorkToDefer[];
  readonly wasStopped: boolean;
  readonly onStop: () => void;
  readonly close: () => void;
}

/** What would be different, and of whom or of what. */
export function WhatIfForm({ form, people, works, wasStopped, onStop, close }: FormProps) {
  const { kind, seconds } = form.entries;
  const control = form.control('kind');
  const seconds2 = 2 * (Number(seconds) || 0);
  const someone = people.map(({ personId, name }) => (
    <option key={personId} value={personId}>
      {name}
    </option>
  ));
  const chooseWork = (workId: string) =>
    form.setEntries((before) => ({ ...before, workId, from: works.find(({ id }) => id === workId)?.weekLater ?? before.from }));
  return (
    <form noValidate onSubmit={form.submit}>
      <p className="hint">{said.note}</p>
      <Trouble troubles={form.troubles} attempt={form.attempt} />
      <fieldset className="group">
        <legend>{said.kind}</legend>
        {WHAT_IFS.map((each) => (
          <label key={each} className="tick">
            <input type="radio" {...control} value={each} checked={kind === each} />
            <span>
              {said.kinds[each]}
              <small>{said.kindNotes[each]}</small>
            </span>
          </label>
        ))}
      </fieldset>
      <div className="fields">
        {kind === 'more' && (
          <>
            <Field {...form.field('likeId')} label={said.like}>
              {(props) => (
                <select {...props} {...form.control('likeId')}>
                  <option value="">{said.choose}</option>
                  {someone}
                </select>
              )}
            </Field>
            <Field {...form.field('skillsLikeId')} label={said.skillsLike}>
              {(props) => (
                <select {...props} {...form.control('skillsLikeId')}>
                  <option value="">{said.noSkills}</option>
                  {someone}
                </select>
              )}
            </Field>
          </>
        )}
        {kind === 'work' && (
          <>
            <Field {...form.field('workId')} label={said.work}>
              {(props) => (
                <select {...props} {...form.control('workId')} onChange={({ target }) => chooseWork(target.value)}>
                  <option value="">{said.choose}</option>
                  {works.map(({ id, text }) => (
                    <option key={id} value={id}>
                      {text}
                    </option>
                  ))}
                </select>
              )}
            </Field>
            <Field {...form.field('from')} label={said.from} hint={said.fromHint}>
              {(props) => <input {...props} {...form.control('from')} type="date" />}
            </Field>
          </>
        )}
        {kind === 'all' && (
          <Field {...form.field('laterDays')} label={said.laterDays} hint={said.laterHint}>
            {(props) => <input {...props} {...form.control('laterDays')} className="short" inputMode="numeric" autoComplete="off" />}
          </Field>
        )}
        <Field {...form.field('seconds')} label={said.seconds} hint={planWords.secondsHint}>
          {(props) => <input {...props} {...form.control('seconds')} className="short" inputMode="numeric" autoComplete="off" />}
        </Field>
      </div>
      {form.isSending ? (
        <SearchProgress seconds={seconds2} onStop={onStop} />
      ) : (
        <p role="status" className="hint">
          {wasStopped && said.stopped}
        </p>
      )}
      <div className="row">
        <button type="submit" className="main-button" disabled={form.isSending}>
          {said.compare}
        </button>
        <button type="button" onClick={close}>
          {words.cancel}
        </button>
      </div>
    </form>
  );
}
