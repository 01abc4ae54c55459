import { useId } from 'react';
import { moment } from '../format.js';
import { words } from '../words.js';
import { PhotoEntry } from './photo-entry.js';
import { AreaEntry, ChoiceEntry, DecimalEntry, TextEntry, useSheetForm } from './sheet-form.js';
import { SignatureEntry } from './signature-entry.js';
import { runningSince, startClock, stopClock } from './work-clock.js';

/** The clock for the time spent, before the tasks, as it is the first thing to do. */
export function ClockSection() {
  const { draft, change } = useSheetForm();
  const headId = useId();
  const since = runningSince(draft);
  return (
    <section className="block" aria-labelledby={headId}>
      <h2 id={headId}>{words.work.time}</h2>
      <button
        type="button"
        className={since === undefined ? 'wide-button' : 'wide-button main-button'}
        onClick={() => change((before) => (since === undefined ? startClock : stopClock)(before, new Date()))}
      >
        {since === undefined ? words.work.start : words.work.stop}
      </button>
      <p role="status" className="hint">
        {since === undefined ? words.work.clockHint : words.work.runningSince(moment(since, draft.sheet.timeZone))}
      </p>
    </section>
  );
}

/** What ends the sheet: the times, the job as a whole, and who signs. */
export function EndSection() {
  const { draft } = useSheetForm();
  const headId = useId();
  return (
    <section className="block" aria-labelledby={headId}>
      <h2 id={headId}>{words.work.finish}</h2>
      <TextEntry field="startedAt" label={words.work.began} type="datetime-local" hint={words.work.siteClock(draft.sheet.timeZone)} />
      <TextEntry field="finishedAt" label={words.work.ended} type="datetime-local" hint={words.work.endedHint} />
      <DecimalEntry field="minutes" label={words.work.minutes} />
      <div className="field">
        <p className="form-name">{words.work.photos}</p>
        <PhotoEntry place="job" field="attachmentIds" label={words.work.addPhoto} />
      </div>
      <AreaEntry field="note" label={words.work.note} most={4000} />
      <ChoiceEntry
        field="outcome"
        label={words.work.jobOutcome}
        options={[
          { value: 'finished', label: words.work.finished },
          { value: 'to be continued', label: words.work.toBeContinued },
        ]}
      />
      <TextEntry field="signedBy" label={words.work.signedBy} hint={words.work.signedHint} autoComplete="name" />
      <SignatureEntry />
    </section>
  );
}
