import { workWords } from '../words/work.js';
import { entryOf, stepField } from './draft.js';
import { controlId, useSheetForm } from './sheet-form.js';
import { ANSWER_OF, isAnswered, isSkipped } from './step-answer.js';
import type { JobSheet } from './use-job-sheet.js';

/** At the foot of the screen, where the thumb is: how many steps are open, the way to the next one, and whether all is kept. */
export function NextStep({ saved }: { saved: JobSheet['saved'] }) {
  const { draft } = useSheetForm();
  const open = draft.sheet.tasks
    .filter(({ taskId }) => entryOf(draft, `tasks/${taskId}/outcome`) !== 'not done')
    .flatMap(({ taskId, steps }) =>
      steps
        .filter((step) => !isAnswered(draft, taskId, step))
        .map(({ no, kind }) => stepField(taskId, no, isSkipped(draft, taskId, no) ? 'why' : ANSWER_OF[kind])),
    );
  const [next] = open;
  const go = () => {
    const control = next === undefined ? null : document.getElementById(controlId(next));
    control?.closest('.step')?.scrollIntoView({ block: 'center' });
    control?.focus({ preventScroll: true });
  };
  return (
    <div className="foot no-print">
      <p>
        <span>{workWords.openSteps(open.length)}</span>
        <small role="status">{{ no: '', restored: workWords.restored, saved: workWords.saved, failed: workWords.notSaved }[saved]}</small>
      </p>
      {next !== undefined && (
        <button type="button" onClick={go}>
          {workWords.nextOpen}
        </button>
      )}
    </div>
  );
}
