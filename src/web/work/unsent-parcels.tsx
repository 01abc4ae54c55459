import { Link } from 'wouter';
import { moment } from '../format.js';
import { outbox, useUnsent } from '../offline/device-outbox.js';
import type { Parcel } from '../offline/parcel.js';
import { workWords } from '../words/work.js';

const HERE = Intl.DateTimeFormat().resolvedOptions().timeZone;

/** What of this person lies in the outbox, in the order in which it goes out. */
export function UnsentParcels({ parcels }: { parcels: readonly Parcel[] }) {
  const { isSending } = useUnsent();
  if (parcels.length === 0) return null;
  return (
    <section className="note-box unsent-list" aria-labelledby="unsent">
      <h2 id="unsent">{workWords.unsentTitle}</h2>
      <p>{workWords.unsentNote}</p>
      <ul className="plain">
        {parcels.map((parcel) => (
          <li key={parcel.id}>
            <Link href={`/work/${parcel.jobId}`}>{parcel.title}</Link>
            <small>
              {workWords.since(moment(parcel.queuedAt, HERE))}
              {parcel.refused === null ? '' : `. ${workWords.refusedNote}`}
            </small>
            <LeftPhotos parcel={parcel} />
          </li>
        ))}
      </ul>
      <button type="button" className="main-button" disabled={isSending} onClick={() => void outbox.signalIsBack()}>
        {isSending ? workWords.sending : workWords.sendNow}
      </button>
    </section>
  );
}

function LeftPhotos({ parcel }: { parcel: Parcel }) {
  if (!parcel.isStored) return null;
  return (
    <>
      {parcel.refusedPhotos.map(({ photo, reason }) => (
        <p key={photo.id}>{workWords.photosLeft(reason)}</p>
      ))}
      <div className="row">
        <button type="button" onClick={() => void outbox.sendPhotosAgain(parcel)}>
          {workWords.photosAgain}
        </button>
        <button type="button" onClick={() => void outbox.giveUpPhotos(parcel)}>
          {workWords.photosGiveUp}
        </button>
      </div>
    </>
  );
}
