import { SIGNALS } from '../../shared/signals.js';
import { STEP_KINDS, type StepKind } from '../../shared/task-sheet.js';
import { newUuid } from '../new-uuid.js';
import { Field } from '../ui/field.js';
import { sheetWords as said } from '../words/task-sheets.js';
import { EMPTY_STEP, type StepDraft, withSignal } from './sheet-draft.js';
import { SheetRows } from './sheet-rows.js';
import type { SheetForm } from './use-sheet-draft.js';

/** What is done, checked, read and photographed, in the order of the work. */
export function SheetSteps({ form }: { form: SheetForm }) {
  const { steps } = form.draft;
  const onChange = (rows: readonly StepDraft[]) => form.changeRows({ steps: rows });
  return (
    <section className="block">
      <h2>{said.steps}</h2>
      {steps.length === 0 && <p className="aside">{said.noSteps}</p>}
      <SheetRows rows={steps} nameOf={said.step} onChange={onChange} ordered>
        {(step, at, change) => <OneStep form={form} step={step} at={at} change={change} />}
      </SheetRows>
      <div className="row">
        <button type="button" onClick={() => onChange([...steps, { ...EMPTY_STEP, key: newUuid() }])}>
          {said.addStep}
        </button>
      </div>
    </section>
  );
}

interface StepProps {
  readonly form: SheetForm;
  readonly step: StepDraft;
  readonly at: number;
  readonly change: (part: Partial<StepDraft>) => void;
}

function OneStep({ form, step, at, change }: StepProps) {
  return (
    <>
      <div className="step-fields">
        <Field {...form.field(`steps/${at}/kind`)} label={said.stepKind}>
          {(props) => (
            <select {...props} value={step.kind} onChange={({ target }) => change({ kind: target.value as StepKind })}>
              {STEP_KINDS.map((kind) => (
                <option key={kind} value={kind}>
                  {said.stepKinds[kind]}
                </option>
              ))}
            </select>
          )}
        </Field>
        <Field {...form.field(`steps/${at}/text`)} label={said.stepText}>
          {(props) => <textarea {...props} rows={2} maxLength={500} value={step.text} onChange={({ target }) => change({ text: target.value })} />}
        </Field>
      </div>
      {step.kind === 'reading' && <ReadingOfStep form={form} step={step} at={at} change={change} />}
      <label className="tick">
        <input type="checkbox" checked={step.safety} onChange={({ target }) => change({ safety: target.checked })} />
        <span>{said.safety}</span>
      </label>
    </>
  );
}

function ReadingOfStep({ form, step, at, change }: StepProps) {
  const text = (name: 'unit' | 'low' | 'high', hint: string) => (
    <Field {...form.field(`steps/${at}/${name}`)} label={said[name]} hint={hint}>
      {(props) => (
        <input
          {...props}
          value={step[name]}
          inputMode={name === 'unit' ? undefined : 'decimal'}
          autoComplete="off"
          onChange={({ target }) => change({ [name]: target.value })}
        />
      )}
    </Field>
  );
  return (
    <div className="fields">
      <Field {...form.field(`steps/${at}/signal`)} label={said.signal}>
        {(props) => (
          <select {...props} value={step.signal} onChange={({ target }) => change(withSignal(step, target.value))}>
            <option value="">{said.noSignal}</option>
            {Object.entries(SIGNALS).map(([code, { label }]) => (
              <option key={code} value={code}>
                {label}
              </option>
            ))}
          </select>
        )}
      </Field>
      {text('unit', said.unitHint)}
      {text('low', said.limitHint)}
      {text('high', said.limitHint)}
    </div>
  );
}
