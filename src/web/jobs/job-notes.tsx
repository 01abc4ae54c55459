import { useQueryClient } from '@tanstack/react-query';
import { api, type Schemas } from '../api/client.js';
import { moment } from '../format.js';
import { Field } from '../ui/field.js';
import { type Column, Sheet } from '../ui/sheet.js';
import { Trouble } from '../ui/trouble.js';
import { useEntries } from '../ui/use-entries.js';
import { weekday } from '../visits/weekday.js';
import { jobWords } from '../words/jobs.js';
import { visitWords } from '../words/visits.js';

type Job = Schemas['JobDetailView'];
type Change = Schemas['JobChangeView'];

/** What people wrote down beside the work, for the department or for the client as well. */
export function JobNotes({ job }: { job: Job }) {
  const notes = job.changes.filter(({ what }) => what === 'note');
  return (
    <section className="block">
      <h2>{jobWords.notes}</h2>
      {notes.length === 0 && <p className="aside">{jobWords.notesNone}</p>}
      <ol className="notes">
        {notes.map(({ at, by, note, toClient }) => (
          <li key={`${at} ${by} ${note}`}>
            <p className="text">{note}</p>
            <small>{[by, moment(at, job.timeZone), toClient ? jobWords.forClient : jobWords.forUs].join(' · ')}</small>
          </li>
        ))}
      </ol>
      <NoteForm key={notes.length} jobId={job.id} />
    </section>
  );
}

function NoteForm({ jobId }: { jobId: string }) {
  const client = useQueryClient();
  const form = useEntries({
    start: { note: '', toClient: '' },
    check: ({ note }) => (note.trim() === '' ? { note: jobWords.needNote } : {}),
    send: ({ note, toClient }) =>
      api.POST('/api/jobs/{id}/notes', { params: { path: { id: jobId } }, body: { note: note.trim(), toClient: toClient === 'yes' } }),
    onDone: () => void client.invalidateQueries(),
  });
  return (
    <details className="more no-print">
      <summary>{jobWords.addNote}</summary>
      <form noValidate onSubmit={form.submit}>
        <Trouble troubles={form.troubles} attempt={form.attempt} />
        <Field {...form.field('note')} label={jobWords.note}>
          {(props) => <textarea {...props} {...form.control('note')} rows={3} />}
        </Field>
        <label className="tick">
          <input
            type="checkbox"
            checked={form.entries.toClient === 'yes'}
            onChange={(event) => {
              const { checked } = event.target;
              form.setEntries((before) => ({ ...before, toClient: checked ? 'yes' : '' }));
            }}
          />
          {jobWords.toClient}
        </label>
        <div className="row">
          <button type="submit" className="main-button" disabled={form.isSending}>
            {jobWords.noteNow}
          </button>
        </div>
      </form>
    </details>
  );
}

/** Everything that happened to a job, the latest first. */
export function JobChanges({ job: { changes, timeZone } }: { job: Job }) {
  const columns: readonly Column<Change & { key: number }>[] = [
    { name: jobWords.at, short: true, cell: (change) => moment(change.at, timeZone) },
    { name: jobWords.by, cell: (change) => change.by },
    {
      name: jobWords.change,
      wide: true,
      cell: ({ what, from, to, note, toClient }) => (
        <>
          {[jobWords.changeOf[what] ?? what, visitWords.fromTo(from, to)].filter(Boolean).join(': ')}
          {note !== '' && <small className="text">{note.replace(/^\d{4}-\d\d-\d\d$/, weekday)}</small>}
          {toClient && <small>{jobWords.forClient}</small>}
        </>
      ),
    },
  ];
  const rows = changes
    .filter(({ what }) => what !== 'note')
    .map((change, key) => ({ ...change, key }))
    .toReversed();
  return (
    <section className="block">
      <h2>{jobWords.changes}</h2>
      <Sheet caption={jobWords.changes} columns={columns} rows={rows} keyOf={({ key }) => String(key)} />
    </section>
  );
}
