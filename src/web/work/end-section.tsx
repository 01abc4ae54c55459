import { useId } from 'react';
import { moment } from '../format.js';
import { workWords } from '../words/work.js';
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
      <h2 id={headId}>{workWords.time}</h2>
      <button
        type="button"
        className={since === undefined ? 'wide-button' : 'wide-button main-button'}
        onClick={() => change((before) => (since === undefined ? startClock : stopClock)(before, new Date()))}
      >
        {since === undefined ? workWords.start : workWords.stop}
      </button>
      <p role="status" className="hint">
        {since === undefined ? workWords.clockHint : workWords.runningSince(moment(since, draft.sheet.timeZone))}
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
      <h2 id={headId}>{workWords.finish}</h2>
      <TextEntry field="startedAt" label={workWords.began} type="datetime-local" hint={workWords.siteClock(draft.sheet.timeZone)} />
      <TextEntry field="finishedAt" label={workWords.ended} type="datetime-local" hint={workWords.endedHint} />
      <DecimalEntry field="minutes" label={workWords.minutes} />
      <DecimalEntry field="travelMinutes" label={workWords.travelMinutes} hint={workWords.travelHint} />
      <DecimalEntry field="travelKm" label={workWords.travelKm} />
      <div className="field">
        <p className="form-name">{workWords.photos}</p>
        <PhotoEntry place="job" field="attachmentIds" label={workWords.addPhoto} />
      </div>
      <AreaEntry field="note" label={workWords.note} most={4000} />
      <ChoiceEntry
        field="outcome"
        label={workWords.jobOutcome}
        options={[
          { value: 'finished', label: workWords.finished },
          { value: 'to be continued', label: workWords.toBeContinued },
        ]}
      />
      <TextEntry field="signedBy" label={workWords.signedBy} hint={workWords.signedHint} autoComplete="name" />
      <SignatureEntry />
    </section>
  );
}
