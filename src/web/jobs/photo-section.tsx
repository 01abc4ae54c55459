import { useId } from 'react';
import { query, type Schemas } from '../api/client.js';
import { moment } from '../format.js';
import { useMay } from '../session/session.js';
import { Refusal } from '../ui/refusal.js';
import { Loaded } from '../ui/states.js';
import { useCall } from '../ui/use-call.js';
import { jobWords } from '../words/jobs.js';
import { sendFile } from './send-file.js';

type Attachment = Schemas['AttachmentView'];

/** Photographs of the job sheet, and those that are added here. */
export function PhotoSection({ jobId, timeZone }: { jobId: string; timeZone: string }) {
  const may = useMay();
  const photos = query.useQuery('get', '/api/attachments', { params: { query: { ofKind: 'job', ofId: jobId } } });
  return (
    <section className="block">
      <h2>{jobWords.photos}</h2>
      <Loaded of={photos} what={jobWords.photosWhat}>
        {({ items }) =>
          items.length === 0 ? (
            <p className="aside">{jobWords.photosNone}</p>
          ) : (
            <ul className="thumbs">
              {items.map((each) => (
                <Photo key={each.id} attachment={each} timeZone={timeZone} />
              ))}
            </ul>
          )
        }
      </Loaded>
      {may.seeWork && <AddPhoto jobId={jobId} />}
    </section>
  );
}

function Photo({ attachment: { id, name, by, at, mediaType }, timeZone }: { attachment: Attachment; timeZone: string }) {
  const path = `/api/attachments/${id}`;
  return (
    <li>
      <a href={path}>
        {mediaType.startsWith('image/') && <img className="thumb" src={path} alt="" loading="lazy" />}
        <span className="line file-name">{name}</span>
      </a>
      <small>{jobWords.photoBy(by, moment(at, timeZone))}</small>
    </li>
  );
}

function AddPhoto({ jobId }: { jobId: string }) {
  const id = useId();
  const { call, isBusy, problem } = useCall();
  return (
    <div className="field no-print">
      <Refusal problem={problem} />
      <label htmlFor={id}>{isBusy ? jobWords.adding : jobWords.addPhoto}</label>
      <p className="hint" id={`${id}-hint`}>
        {jobWords.photoHint}
      </p>
      <input
        id={id}
        type="file"
        accept="image/*,application/pdf"
        aria-describedby={`${id}-hint`}
        disabled={isBusy}
        onChange={({ target }) => {
          const file = target.files?.[0];
          if (file === undefined) return;
          void call(() => sendFile(jobId, file)).finally(() => {
            target.value = '';
          });
        }}
      />
    </div>
  );
}
