import { useState } from 'react';
import { useLocation, useSearchParams } from 'wouter';
import { SEVERITIES } from '../../shared/work.js';
import { api, query } from '../api/client.js';
import { problemOf } from '../api/problem.js';
import { sendFile } from '../jobs/send-file.js';
import { newUuid } from '../new-uuid.js';
import { Field } from '../ui/field.js';
import { PageHead } from '../ui/page-head.js';
import { Trouble } from '../ui/trouble.js';
import { useEntries } from '../ui/use-entries.js';
import { requestWords as said } from '../words/requests.js';
import { words } from '../words.js';

const EMPTY = { skidId: '', title: '', request: '', severity: '' };

/** A client asks for something, or reports that a skid stopped, with photographs. */
export default function NewRequestPage() {
  const [, go] = useLocation();
  const [params] = useSearchParams();
  const [photos, setPhotos] = useState<readonly File[]>([]);
  const [failed, setFailed] = useState<{ readonly jobId: string; readonly message: string } | null>(null);
  // Sent again after a lost answer, it is still one request.
  const [key] = useState(newUuid);
  const skids = query.useQuery('get', '/api/skids', { params: { query: { limit: 200 } } });

  const sendPhotos = async (jobId: string) => {
    for (const photo of photos) {
      const { error, response } = await sendFile(jobId, photo);
      if (!response.ok) return setFailed({ jobId, message: said.photoFailed(photo.name, problemOf(error).title) });
    }
    go(`/requests/${jobId}`);
  };
  const form = useEntries({
    start: { ...EMPTY, skidId: params.get('skid') ?? '' },
    check: ({ skidId, title, request }) => ({
      ...(skidId === '' ? { skidId: said.needSkid } : {}),
      ...(title.trim() === '' ? { title: said.needSubject } : {}),
      ...(request.trim() === '' ? { request: said.needText } : {}),
    }),
    send: ({ skidId, title, request, severity }) =>
      api.POST('/api/requests', {
        headers: { 'Idempotency-Key': key },
        body: { skidId, title: title.trim(), request: request.trim(), severity: SEVERITIES.find((one) => one === severity) ?? null },
      }),
    onDone: (answer) => {
      if (answer !== undefined) void sendPhotos(answer.jobId);
    },
  });
  if (failed !== null) {
    return (
      <>
        <PageHead title={said.newTitle} />
        <p role="alert" className="fix">
          {failed.message} <a href={`/requests/${failed.jobId}`}>{said.one}</a>
        </p>
      </>
    );
  }
  return (
    <>
      <PageHead title={said.newTitle} />
      <section className="block">
        <Trouble troubles={form.troubles} attempt={form.attempt} />
        <form noValidate onSubmit={form.submit}>
          <div className="fields">
            <Field {...form.field('skidId')} label={said.skid}>
              {(props) => (
                <select {...props} {...form.control('skidId')}>
                  <option value="">{words.choose}</option>
                  {skids.data?.items.map((skid) => (
                    <option key={skid.id} value={skid.id}>
                      {skid.name}
                    </option>
                  ))}
                </select>
              )}
            </Field>
            <Field {...form.field('severity')} label={said.severity} hint={said.severityHint}>
              {(props) => (
                <select {...props} {...form.control('severity')}>
                  <option value="">{said.question}</option>
                  {SEVERITIES.map((severity) => (
                    <option key={severity} value={severity}>
                      {said.severities[severity]}
                    </option>
                  ))}
                </select>
              )}
            </Field>
            <Field {...form.field('title')} label={said.subject}>
              {(props) => <input {...props} {...form.control('title')} autoComplete="off" />}
            </Field>
          </div>
          <Field {...form.field('request')} label={said.text}>
            {(props) => <textarea {...props} {...form.control('request')} rows={5} />}
          </Field>
          <Field id="request-photos" label={said.photos} hint={said.photosHint}>
            {(props) => <input {...props} type="file" accept="image/*" multiple onChange={({ target }) => setPhotos([...(target.files ?? [])])} />}
          </Field>
          <div className="row">
            <button type="submit" className="main-button" disabled={form.isSending}>
              {form.isSending ? said.sending : said.send}
            </button>
          </div>
        </form>
      </section>
    </>
  );
}
