import { moment } from '../format.js';
import { workWords } from '../words/work.js';
import { words } from '../words.js';
import { setEntry, stepField } from './draft.js';
import { PhotoEntry } from './photo-entry.js';
import { AreaEntry, ChoiceEntry, DecimalEntry, useSheetForm } from './sheet-form.js';
import type { StepOfSheet } from './sheet-types.js';
import { isAnswered, isSkipped, limitsInWords, outsideLimits, photoPlace, unitName, withUnit } from './step-answer.js';

/** One step of a task: what to do, the answer, and the way to leave it out. */
export function StepCard({ taskId, step }: { taskId: string; step: StepOfSheet }) {
  const { draft, change } = useSheetForm();
  const { no, text, safety, kind } = step;
  const skipped = isSkipped(draft, taskId, no);
  const state = isAnswered(draft, taskId, step) ? (skipped ? 'is-skipped' : 'is-answered') : 'is-open';
  const outcome = stepField(taskId, no, 'outcome');
  return (
    <li className={`step ${state}`}>
      <p className="step-text">
        <strong>{no}</strong> {safety && <span className="safety">{workWords.safety}</span>}
        {text}
      </p>
      {kind === 'do' ? <DoAnswer taskId={taskId} no={no} /> : !skipped && <Answer taskId={taskId} step={step} />}
      {kind !== 'do' && (
        <label className="tick">
          <input type="checkbox" checked={skipped} onChange={(event) => change((before) => setEntry(before, outcome, event.target.checked ? 'skipped' : ''))} />
          <span>
            {workWords.skip}
            <span className="unseen">: {workWords.step(no)}</span>
          </span>
        </label>
      )}
      {skipped && <AreaEntry field={stepField(taskId, no, 'why')} label={workWords.whySkipped} {...(safety ? { hint: workWords.whySafety } : {})} />}
    </li>
  );
}

function Answer({ taskId, step }: { taskId: string; step: StepOfSheet }) {
  const { no, kind } = step;
  if (kind === 'reading') return <Reading taskId={taskId} step={step} />;
  if (kind === 'check') return <Check taskId={taskId} step={step} />;
  return <PhotoEntry place={photoPlace(taskId, no)} field={stepField(taskId, no, 'photos')} label={workWords.photo} />;
}

/** Done, or left out: the two answers of a step that only has to be done. */
function DoAnswer({ taskId, no }: { taskId: string; no: number }) {
  return (
    <ChoiceEntry
      field={stepField(taskId, no, 'outcome')}
      label={workWords.step(no)}
      isLabelUnseen
      options={[
        { value: 'done', label: workWords.done },
        { value: 'skipped', label: workWords.skipped },
      ]}
    />
  );
}

function Check({ taskId, step: { no, safety } }: { taskId: string; step: StepOfSheet }) {
  const { entry } = useSheetForm();
  const field = stepField(taskId, no, 'yes');
  return (
    <>
      <ChoiceEntry
        field={field}
        label={workWords.step(no)}
        isLabelUnseen
        options={[
          { value: 'yes', label: words.yes },
          { value: 'no', label: words.no },
        ]}
      />
      {safety && entry(field) === 'no' && (
        <p className="outside" role="status">
          {workWords.noOnSafety}
        </p>
      )}
    </>
  );
}

function Reading({ taskId, step }: { taskId: string; step: StepOfSheet }) {
  const { draft, entry } = useSheetForm();
  const { no, unit, last } = step;
  const field = stepField(taskId, no, 'value');
  const outside = outsideLimits(step, entry(field));
  const hint = [limitsInWords(step), last === null ? '' : workWords.last(withUnit(last.value, last.unit), moment(last.at, draft.sheet.timeZone))];
  return (
    <>
      <DecimalEntry field={field} label={workWords.value} unit={unitName(unit)} hint={hint.filter(Boolean).join(' ') || undefined} />
      <p className={outside === undefined ? 'unseen' : 'outside'} role="status">
        {outside}
      </p>
    </>
  );
}
