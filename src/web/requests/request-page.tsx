import { useQueryClient } from '@tanstack/react-query';
import { useState } from 'react';
import { api, query, type Schemas } from '../api/client.js';
import { problemOf } from '../api/problem.js';
import { day, moment } from '../format.js';
import { PhotoSection } from '../jobs/photo-section.js';
import { ReportSection } from '../jobs/report-section.js';
import { sendFile } from '../jobs/send-file.js';
import { Field } from '../ui/field.js';
import { PageHead } from '../ui/page-head.js';
import { Failed, Loading } from '../ui/states.js';
import { Trouble } from '../ui/trouble.js';
import { useEntries } from '../ui/use-entries.js';
import { requestWords as said } from '../words/requests.js';

type Job = Schemas['JobDetailView'];

/** One request of a client, and what becomes of it. */
export default function RequestPage({ jobId }: { jobId: string }) {
  const asked = query.useQuery('get', '/api/jobs/{id}', { params: { path: { id: jobId } } });
  if (asked.data === undefined) {
    if (!asked.isError) return <Loading what={said.one} />;
    return (
      <>
        <PageHead title={problemOf(asked.error).status === 404 ? said.unknown : said.title} />
        <Failed what={said.one} error={asked.error} again={() => void asked.refetch()} />
      </>
    );
  }
  const job = asked.data;
  const facts = [
    { name: said.state, value: job.stateNote === '' ? said.states[job.state] : `${said.states[job.state]}: ${job.stateNote}` },
    { name: said.visit, value: job.visitOn === null ? said.noVisit : day(job.visitOn) },
    { name: said.by, value: `${job.createdBy}, ${moment(job.createdAt, job.timeZone)}` },
  ];
  return (
    <>
      <PageHead over={`${job.skidName}, ${job.siteName}`} title={job.title} facts={facts} />
      {job.request !== '' && (
        <section className="block">
          <h2>{said.asked}</h2>
          <p className="text">{job.request}</p>
        </section>
      )}
      <Happened job={job} />
      <ReportSection job={job} />
      <PhotoSection jobId={jobId} timeZone={job.timeZone} />
      {job.state !== 'finished' && job.state !== 'dropped' && <Say jobId={jobId} />}
    </>
  );
}

function Happened({ job }: { job: Job }) {
  return (
    <section className="block">
      <h2>{said.happened}</h2>
      {job.changes.length === 0 ? (
        <p className="aside">{said.nothing}</p>
      ) : (
        <ul className="plain">
          {job.changes.map((change) => (
            <li key={`${change.at} ${change.what} ${change.to}`}>
              {moment(change.at, job.timeZone)}: {[said.states[change.to as Job['state']] ?? change.to, change.note].filter(Boolean).join('. ')} ({change.by})
            </li>
          ))}
        </ul>
      )}
      <p>
        <a href={`/api/jobs/${job.id}/report.pdf`}>{said.print}</a>
      </p>
    </section>
  );
}

/** A note, or another photograph. */
function Say({ jobId }: { jobId: string }) {
  const client = useQueryClient();
  const [told, setTold] = useState('');
  const refresh = () => void client.invalidateQueries();
  const form = useEntries({
    start: { note: '' },
    check: ({ note }) => (note.trim() === '' ? { note: said.needNote } : {}),
    send: ({ note }) => api.POST('/api/requests/{jobId}/notes', { params: { path: { jobId } }, body: { note: note.trim() } }),
    onDone: () => {
      form.setEntries({ note: '' });
      setTold(said.sent);
      refresh();
    },
  });
  const add = async (photo: File | undefined) => {
    if (photo === undefined) return;
    const { error, response } = await sendFile(jobId, photo);
    setTold(response.ok ? said.sent : problemOf(error).title);
    refresh();
  };
  return (
    <section className="block no-print">
      <h2>{said.note}</h2>
      <Trouble troubles={form.troubles} attempt={form.attempt} />
      <form noValidate onSubmit={form.submit}>
        <Field {...form.field('note')} label={said.yourNote}>
          {(props) => <textarea {...props} {...form.control('note')} rows={3} />}
        </Field>
        <div className="row">
          <button type="submit" className="main-button" disabled={form.isSending}>
            {said.sendNote}
          </button>
          <span role="status" className="hint">
            {told}
          </span>
        </div>
      </form>
      <Field id="add-photo" label={said.addPhoto} hint={said.photosHint}>
        {(props) => <input {...props} type="file" accept="image/*" onChange={({ target }) => void add(target.files?.[0])} />}
      </Field>
    </section>
  );
}
