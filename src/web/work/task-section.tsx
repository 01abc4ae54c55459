import { useId } from 'react';
import { day, minutes, written } from '../format.js';
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
          task.positionName === null ? '' : words.work.at(task.positionName),
          task.expectedMinutes === null ? '' : words.work.takes(minutes(task.expectedMinutes)),
          task.waterOffMinutes > 0 ? words.work.waterOff(minutes(task.waterOffMinutes)) : '',
        ]
          .filter(Boolean)
          .join(' · ')}
      </p>
      {reason !== '' && <p className="reason">{reason}</p>}
      {task.note !== '' && <p>{task.note}</p>}
      {fitted !== null && <p>{words.work.fittedNow(partName(fitted), day(fitted.fittedAt.slice(0, 10)))}</p>}
      <Needs task={task} />
      {steps.length > 0 && (
        <ol className="steps" aria-label={words.work.steps}>
          {steps.map((step) => (
            <StepCard key={step.no} taskId={taskId} step={step} />
          ))}
        </ol>
      )}
      {entry(outcome) !== 'not done' && <Records taskId={taskId} />}
      <ChoiceEntry
        field={outcome}
        label={words.work.taskOutcome}
        options={[
          { value: 'done', label: words.work.taskDone },
          { value: 'not done', label: words.work.taskNotDone },
        ]}
      />
      {entry(outcome) === 'not done' && <AreaEntry field={`tasks/${taskId}/whyNot`} label={words.work.whyNot} />}
      <AreaEntry field={`tasks/${taskId}/note`} label={words.work.taskNote} most={2000} />
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
    { name: words.work.tools, items: tools },
    { name: words.work.instruments, items: instruments },
    { name: words.work.chemicals, items: chemicals.map(({ chemical, litres, strength }) => words.work.amountOf(chemical, written(litres), strength)) },
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
