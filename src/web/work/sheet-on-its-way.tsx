import { outbox, useUnsent } from '../offline/device-outbox.js';
import type { Parcel } from '../offline/parcel.js';
import { words } from '../words.js';

/** A sheet that is in the outbox of this device. */
export function SheetOnItsWay({ parcel, takeBack }: { parcel: Parcel; takeBack: () => Promise<void> }) {
  const { isSending } = useUnsent();
  const { refused, tries } = parcel;
  return (
    <section className="note-box" aria-labelledby="on-its-way">
      <h2 id="on-its-way">{refused === null ? words.work.unsentTitle : words.work.marks.refused}</h2>
      {refused === null ? <p>{words.work.waits}</p> : <p>{[words.work.refusedNote, refused.title].join(' ')}</p>}
      {refused !== null && (
        <ul className="plain">
          {refused.errors.map(({ pointer, message }) => (
            <li key={`${pointer} ${message}`}>{message}</li>
          ))}
        </ul>
      )}
      <p role="status">{isSending ? words.work.sending : ''}</p>
      <div className="row">
        {refused === null && (
          <button type="button" className="main-button" disabled={isSending} onClick={() => void outbox.signalIsBack()}>
            {words.work.sendNow}
          </button>
        )}
        <button type="button" disabled={isSending} onClick={() => void takeBack()}>
          {words.work.change}
        </button>
      </div>
      {refused !== null && (
        <details className="more">
          <summary>{words.work.throwAway}</summary>
          <p>{words.work.throwAwayNote}</p>
          <button type="button" onClick={() => void outbox.throwAway(parcel)}>
            {words.work.throwAwayNow}
          </button>
        </details>
      )}
      {refused === null && tries > 0 && <p className="hint">{words.work.changeHint}</p>}
    </section>
  );
}
