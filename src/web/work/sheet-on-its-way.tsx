import { outbox, useUnsent } from '../offline/device-outbox.js';
import type { Parcel } from '../offline/parcel.js';
import { workWords } from '../words/work.js';

/** A sheet that is in the outbox of this device. */
export function SheetOnItsWay({ parcel, takeBack }: { parcel: Parcel; takeBack: () => Promise<void> }) {
  const { isSending } = useUnsent();
  const { refused, tries } = parcel;
  return (
    <section className="note-box" aria-labelledby="on-its-way">
      <h2 id="on-its-way">{refused === null ? workWords.unsentTitle : workWords.marks.refused}</h2>
      {refused === null ? <p>{workWords.waits}</p> : <p>{[workWords.refusedNote, refused.title].join(' ')}</p>}
      {refused !== null && (
        <ul className="plain">
          {refused.errors.map(({ pointer, message }) => (
            <li key={`${pointer} ${message}`}>{message}</li>
          ))}
        </ul>
      )}
      <p role="status">{isSending ? workWords.sending : ''}</p>
      <div className="row">
        {refused === null && (
          <button type="button" className="main-button" disabled={isSending} onClick={() => void outbox.signalIsBack()}>
            {workWords.sendNow}
          </button>
        )}
        <button type="button" disabled={isSending} onClick={() => void takeBack()}>
          {workWords.change}
        </button>
      </div>
      {refused !== null && (
        <details className="more">
          <summary>{workWords.throwAway}</summary>
          <p>{workWords.throwAwayNote}</p>
          <button type="button" onClick={() => void outbox.throwAway(parcel)}>
            {workWords.throwAwayNow}
          </button>
        </details>
      )}
      {refused === null && tries > 0 && <p className="hint">{workWords.changeHint}</p>}
    </section>
  );
}
