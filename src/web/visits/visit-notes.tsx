import { useQueryClient } from '@tanstack/react-query';
import { api, type Schemas } from '../api/client.js';
import { ifMatch } from '../api/if-match.js';
import { useMay } from '../session/session.js';
import { Field } from '../ui/field.js';
import { Trouble } from '../ui/trouble.js';
import { useEntries } from '../ui/use-entries.js';
import { visitWords } from '../words/visits.js';
import { words } from '../words.js';

type Visit = Schemas['VisitDetailView'];

/** What the department and what the client should know. */
export function VisitNotes({ visit }: { visit: Visit }) {
  const may = useMay();
  const { note, noteToClient } = visit;
  if (!may.manage && (note ?? '') + noteToClient === '') return null;
  return (
    <section className="block">
      <h2>{visitWords.notes}</h2>
      <dl className="pairs">
        <div>
          <dt>{visitWords.note}</dt>
          <dd className="text">{note || words.none}</dd>
        </div>
        <div>
          <dt>{visitWords.noteToClient}</dt>
          <dd className="text">{noteToClient || words.none}</dd>
        </div>
      </dl>
      {may.manage && <EditNotes key={visit.version} visit={visit} />}
    </section>
  );
}

function EditNotes({ visit }: { visit: Visit }) {
  const client = useQueryClient();
  const form = useEntries({
    start: { note: visit.note ?? '', noteToClient: visit.noteToClient },
    check: () => ({}),
    send: (body) => api.PATCH('/api/visits/{id}', { params: { path: { id: visit.id } }, headers: ifMatch(visit), body }),
    onDone: () => void client.invalidateQueries(),
  });
  return (
    <details className="more no-print">
      <summary>{visitWords.editNotes}</summary>
      <form noValidate onSubmit={form.submit}>
        <Trouble troubles={form.troubles} attempt={form.attempt} />
        <Field {...form.field('note')} label={visitWords.note}>
          {(props) => <textarea {...props} {...form.control('note')} rows={3} />}
        </Field>
        <Field {...form.field('noteToClient')} label={visitWords.noteToClient}>
          {(props) => <textarea {...props} {...form.control('noteToClient')} rows={3} />}
        </Field>
        <div className="row">
          <button type="submit" className="main-button" disabled={form.isSending}>
            {visitWords.saveNotes}
          </button>
        </div>
      </form>
    </details>
  );
}
