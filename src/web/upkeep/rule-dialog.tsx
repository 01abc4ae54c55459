import '../styles/upkeep.css';
import { useQueryClient } from '@tanstack/react-query';
import { CONDITION_FIGURES, OUTLOOK_LIMITS, WHILE_LAID_UP } from '../../shared/upkeep-terms.js';
import { api } from '../api/client.js';
import { ifMatch } from '../api/if-match.js';
import { Dialog } from '../ui/dialog.js';
import { Field } from '../ui/field.js';
import { Trouble } from '../ui/trouble.js';
import { useEntries } from '../ui/use-entries.js';
import { useRequestKey } from '../ui/use-request-key.js';
import { ruleWords as said } from '../words/rules.js';
import {
  bodyOfRule,
  COUNTED,
  checkRule,
  entriesOf,
  linesOf,
  NEW_RULE,
  PLACES,
  placeName,
  type Rule,
  type RuleField,
  ruleFieldAt,
  unitOfFigure,
} from './rule-entries.js';
import { SheetField } from './sheet-field.js';

interface RuleDialogProps {
  readonly title: string;
  /** Unset: a new one */
  readonly rule?: Rule;
  /** What a new one belongs to */
  readonly home: { readonly ruleSetVersionId: string } | { readonly skidId: string };
  /** Rules beside it, for the smaller tasks that it can contain */
  readonly others: readonly Rule[];
  readonly onClose: () => void;
}

/** Everything that a rule can say. */
export function RuleDialog({ title, onClose, ...rest }: RuleDialogProps) {
  return (
    <Dialog title={title} onClose={onClose}>
      {(close) => <RuleForm {...rest} close={close} />}
    </Dialog>
  );
}

function RuleForm({ rule, home, others, close }: Omit<RuleDialogProps, 'title' | 'onClose'> & { close: () => void }) {
  const client = useQueryClient();
  const keyOf = useRequestKey();
  const form = useEntries<RuleField, unknown>({
    start: rule === undefined ? NEW_RULE : entriesOf(rule),
    check: checkRule,
    fieldAt: ruleFieldAt,
    labelOf: (name) => LABELS[name] ?? said[name as 'task'],
    send: (entries) => {
      const body = bodyOfRule(entries);
      if (rule !== undefined) return api.PUT('/api/rules/{id}', { params: { path: { id: rule.id } }, headers: ifMatch(rule), body });
      const made = { ...body, ...home };
      return api.POST('/api/rules', { params: { header: keyOf(made) }, body: made });
    },
    onDone: () => {
      close();
      void client.invalidateQueries();
    },
  });
  const { entries } = form;
  const number = (name: RuleField, hint?: string) => (
    <Field key={name} {...form.field(name)} label={said[name as 'days']} hint={hint}>
      {(props) => <input {...props} {...form.control(name)} inputMode="decimal" autoComplete="off" />}
    </Field>
  );
  const choice = (name: RuleField, label: string, options: readonly { value: string; label: string }[], hint?: string) => (
    <Field {...form.field(name)} label={label} hint={hint}>
      {(props) => (
        <select {...props} {...form.control(name)}>
          {options.map(({ value, label: text }) => (
            <option key={value} value={value}>
              {text}
            </option>
          ))}
        </select>
      )}
    </Field>
  );
  const unit = unitOfFigure(entries.conditionFigure);
  const inUnit = unit === '' ? undefined : said.inUnit(unit);
  return (
    <form noValidate onSubmit={form.submit}>
      <Trouble troubles={form.troubles} attempt={form.attempt} />
      <fieldset className="group">
        <legend>{said.what}</legend>
        <SheetField
          field={form.field('taskSheetId')}
          chosen={{ id: entries.taskSheetId, task: entries.sheetTask }}
          onChoose={({ id, task }) => form.setEntries((before) => ({ ...before, taskSheetId: id, sheetTask: task }))}
        />
        <Field {...form.field('task')} label={said.task} hint={said.taskHint}>
          {(props) => <input {...props} {...form.control('task')} autoComplete="off" />}
        </Field>
        {choice('positionKind', said.place, PLACES)}
      </fieldset>
      <fieldset className="group">
        <legend>{said.when}</legend>
        <p className="hint">{said.whenHint}</p>
        <div className="fields few">{COUNTED.map((name) => number(name))}</div>
        {number('days', said.daysHint)}
        {choice('outlookLimit', said.outlookLimit, [{ value: '', label: said.noOutlook }, ...optionsOf(OUTLOOK_LIMITS)], said.outlookHint)}
        {choice(
          'conditionFigure',
          said.conditionFigure,
          [{ value: '', label: said.noFigure }, ...Object.entries(CONDITION_FIGURES).map(([value, { label }]) => ({ value, label }))],
          said.figureHint,
        )}
        {(unit !== '' || entries.conditionAbove !== '' || entries.conditionBelow !== '') && (
          <div className="fields">
            {number('conditionAbove', inUnit)}
            {number('conditionBelow', inUnit)}
          </div>
        )}
      </fieldset>
      <fieldset className="group">
        <legend>{said.how}</legend>
        {choice('base', said.base, optionsOf(said.bases))}
        {number('graceDays', said.graceHint)}
        {choice(
          'whileLaidUp',
          said.whileLaidUp,
          WHILE_LAID_UP.map((value) => ({ value, label: said.laidUp[value] })),
          said.laidUpHint,
        )}
      </fieldset>
      <Contained
        problem={form.field('contains')}
        place={entries.positionKind}
        tasks={others.filter(({ id, positionKind }) => id !== rule?.id && positionKind === entries.positionKind).map(({ task }) => task)}
        chosen={linesOf(entries.contains)}
        onChange={(tasks) => form.setEntries((before) => ({ ...before, contains: tasks.join('\n') }))}
      />
      <Field {...form.field('note')} label={said.note} hint={said.noteHint}>
        {(props) => <textarea {...props} {...form.control('note')} rows={2} />}
      </Field>
      <div className="row">
        <button type="submit" className="main-button" disabled={form.isSending}>
          {said.save}
        </button>
        <button type="button" onClick={close}>
          {said.cancel}
        </button>
      </div>
    </form>
  );
}

/** Of the fields that are not called as in the service. */
const LABELS: Partial<Record<RuleField, string>> = { taskSheetId: said.sheet, positionKind: said.place };

const optionsOf = (names: Readonly<Record<string, string>>) => Object.entries(names).map(([value, label]) => ({ value, label }));

interface ContainedProps {
  readonly problem: { readonly id: string; readonly problem: string | undefined };
  readonly place: string;
  readonly tasks: readonly string[];
  readonly chosen: readonly string[];
  readonly onChange: (tasks: readonly string[]) => void;
}

/** A task that was chosen stays in the list when the rule for it has gone, so that it can be taken out. */
function Contained({ problem: { id, problem }, place, tasks, chosen, onChange }: ContainedProps) {
  const all = [...new Set([...tasks, ...chosen])];
  return (
    <fieldset className="group" id={id} tabIndex={-1} aria-describedby={problem === undefined ? `${id}-hint` : `${id}-hint ${id}-problem`}>
      <legend>{said.contains}</legend>
      <p className="hint" id={`${id}-hint`}>
        {all.length === 0 ? said.containsNone(placeName(place)) : said.containsHint}
      </p>
      {problem !== undefined && (
        <p className="fix" id={`${id}-problem`}>
          {problem}
        </p>
      )}
      {all.length > 0 && (
        <div className="choices">
          {all.map((task) => (
            <label className="tick" key={task}>
              <input
                type="checkbox"
                checked={chosen.includes(task)}
                onChange={({ target }) => onChange(target.checked ? [...chosen, task] : chosen.filter((each) => each !== task))}
              />
              <span>{task}</span>
            </label>
          ))}
        </div>
      )}
    </fieldset>
  );
}
