import { useId } from 'react';
import { day, minutes, written } from '../format.js';
import { workWords } from '../words/work.js';
import { words } from '../words.js';
import { CalibrationRecord } from './calibration-record.js';
import { CleanRow } from './clean-section.js';
import { rowsOf } from './draft.js';
import { FittedRow } from './fitted-section.js';
import { IntegrityRecord } from './integrity-record.js';
import { AreaEntry, ChoiceEntry, useSheetForm } from './sheet-form.js';
import type { TaskOfSheet } from './sheet-types.js';
import { StepCard } from './step-card.js';

/** One task: where and why, what it takes, its steps in order, the record that its kind asks for, and whether it was done. */
export function TaskSection({ task }: { task: TaskOfSheet }) {
  const { entry } = useSheetForm();
  const headId = useId();
  const { taskId, steps, reason, fitted } = task;
  const outcome = `tasks/${taskId}/outcome`;
  return (
    <section className="block" aria-labelledby={headId}>
      <h2 id={headId}>{task.task}</h2>
      <p className="aside">
        {[
          task.positionName === null ? '' : workWords.at(task.positionName),
          task.expectedMinutes === null ? '' : workWords.takes(minutes(task.expectedMinutes)),
          task.waterOffMinutes > 0 ? workWords.waterOff(minutes(task.waterOffMinutes)) : '',
        ]
          .filter(Boolean)
          .join(' · ')}
      </p>
      {reason !== '' && <p className="reason">{reason}</p>}
      {task.note !== '' && <p>{task.note}</p>}
      {fitted !== null && <p>{workWords.fittedNow(partName(fitted), day(fitted.fittedAt.slice(0, 10)))}</p>}
      <Needs task={task} />
      {steps.length > 0 && (
        <ol className="steps" aria-label={workWords.steps}>
          {steps.map((step) => (
            <StepCard key={step.no} taskId={taskId} step={step} />
          ))}
        </ol>
      )}
      {entry(outcome) !== 'not done' && <Records taskId={taskId} />}
      <ChoiceEntry
        field={outcome}
        label={workWords.taskOutcome}
        options={[
          { value: 'done', label: workWords.taskDone },
          { value: 'not done', label: workWords.taskNotDone },
        ]}
      />
      {entry(outcome) === 'not done' && <AreaEntry field={`tasks/${taskId}/whyNot`} label={workWords.whyNot} />}
      <AreaEntry field={`tasks/${taskId}/note`} label={workWords.taskNote} most={2000} />
    </section>
  );
}

/** What a task of this kind leaves behind. */
function Records({ taskId }: { taskId: string }) {
  const { draft } = useSheetForm();
  const has = (list: string) => rowsOf(draft, list).includes(taskId);
  return (
    <>
      {has('integrityTests') && <IntegrityRecord taskId={taskId} />}
      {has('calibrations') && <CalibrationRecord taskId={taskId} />}
      {has('cleans') && <CleanRow row={taskId} />}
      {has('partsFitted') && <FittedRow row={taskId} />}
    </>
  );
}

function Needs({ task: { tools, instruments, chemicals } }: { task: TaskOfSheet }) {
  const lists = [
    { name: workWords.tools, items: tools },
    { name: workWords.instruments, items: instruments },
    { name: workWords.chemicals, items: chemicals.map(({ chemical, litres, strength }) => workWords.amountOf(chemical, written(litres), strength)) },
  ].filter(({ items }) => items.length > 0);
  if (lists.length === 0) return null;
  return (
    <dl className="pairs">
      {lists.map(({ name, items }) => (
        <div key={name}>
          <dt>{name}</dt>
          <dd>{items.join('; ')}</dd>
        </div>
      ))}
    </dl>
  );
}

const partName = ({ name, code, serialNumber, lot }: { name: string; code: string; serialNumber: string | null; lot: string | null }) =>
  [`${name} (${code})`, serialNumber === null ? '' : words.parts.serial(serialNumber), lot === null ? '' : words.parts.lot(lot)].filter(Boolean).join(', ');
