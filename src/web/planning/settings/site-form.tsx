import { useQueryClient } from '@tanstack/react-query';
import { api, type Schemas } from '../../api/client.js';
import { ifMatch } from '../../api/if-match.js';
import { Field } from '../../ui/field.js';
import { Trouble } from '../../ui/trouble.js';
import { useEntries } from '../../ui/use-entries.js';
import { planningWords } from '../../words/planning.js';
import { fieldAtPointer, rowField, rowsOf, withRows } from '../row-entries.js';
import { RowList } from '../row-list.js';
import { accessField } from './access-entries.js';
import { AccessFields } from './access-fields.js';
import { DaysField } from './days-field.js';
import { checkSite, siteBody, siteLabel, siteStart, WINDOW } from './site-fields.js';

const said = planningWords.site;
const USUAL_HOURS = { days: '12345', from: '08:00', until: '16:00' };

interface SiteFormProps {
  readonly site: Schemas['SitePlanningView'];
  /** Nothing was changed since it was saved here */
  readonly isSaved: boolean;
  readonly onSaved: (version: number | undefined) => void;
}

export function SiteForm({ site, isSaved, onSaved }: SiteFormProps) {
  const client = useQueryClient();
  const form = useEntries<string, Schemas['SitePlanningView']>({
    start: siteStart(site),
    check: (entries) => {
      onSaved(undefined);
      return checkSite(entries);
    },
    fieldAt: (pointer) => accessField(fieldAtPointer(pointer)),
    labelOf: siteLabel,
    send: (entries) => api.PUT('/api/planning/sites/{siteId}', { params: { path: { siteId: site.siteId } }, headers: ifMatch(site), body: siteBody(entries) }),
    onDone: (answer) => {
      onSaved(answer?.version);
      void client.invalidateQueries();
    },
  });
  const windows = rowsOf(form.entries, 'windows', WINDOW);
  const setRows = (list: string, rows: readonly Readonly<Record<string, string>>[]) => form.setEntries((before) => withRows(before, list, rows));
  const setWindows = (rows: readonly Readonly<Record<string, string>>[]) => setRows('windows', rows);
  const input = (name: string, type: 'text' | 'lines' | 'email' | 'tel', hint?: string) => (
    <Field key={name} {...form.field(name)} label={siteLabel(name)} hint={hint}>
      {(props) =>
        type === 'lines' ? (
          <textarea {...props} {...form.control(name)} rows={2} />
        ) : (
          <input {...props} {...form.control(name)} type={type} autoComplete="off" />
        )
      }
    </Field>
  );
  const set = (name: string) => (value: string) => form.setEntries((before) => ({ ...before, [name]: value }));
  return (
    <>
      <Trouble troubles={form.troubles} attempt={form.attempt} />
      <form noValidate onSubmit={form.submit}>
        <RowList
          legend={said.windows}
          one={said.hours}
          none={said.noWindows}
          add={said.addWindow}
          count={windows.length}
          onAdd={() => setWindows([...windows, USUAL_HOURS])}
          onLeaveOut={(at) => setWindows(windows.toSpliced(at, 1))}
        >
          {(at) => (
            <>
              <DaysField
                {...form.field(rowField('windows', at, 'days'))}
                label={said.days}
                value={windows[at]?.days ?? ''}
                onChange={set(rowField('windows', at, 'days'))}
              />
              {(['from', 'until'] as const).map((end) => (
                <Field key={end} {...form.field(rowField('windows', at, end))} label={said[end]}>
                  {(props) => <input {...props} {...form.control(rowField('windows', at, end))} type="time" />}
                </Field>
              ))}
            </>
          )}
        </RowList>
        <section className="block">
          <h2>{said.alone}</h2>
          <label className="tick">
            <input type="checkbox" checked={form.entries.mayWorkAlone === 'yes'} onChange={({ target }) => set('mayWorkAlone')(target.checked ? 'yes' : '')} />
            <span>{said.mayWorkAlone}</span>
          </label>
          <Field {...form.field('extraMinutes')} label={said.extraMinutes} hint={said.extraHint}>
            {(props) => <input {...props} {...form.control('extraMinutes')} className="short" inputMode="numeric" autoComplete="off" />}
          </Field>
        </section>
        <AccessFields entries={form.entries} input={input} set={set} setRows={setRows} />
        <p className="row">
          <button type="submit" className="main-button" disabled={form.isSending}>
            {planningWords.save}
          </button>
          <span role="status" className="hint">
            {isSaved && planningWords.saved}
          </span>
        </p>
      </form>
    </>
  );
}
