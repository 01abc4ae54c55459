import { useQueryClient } from '@tanstack/react-query';
import { api, type Schemas } from '../api/client.js';
import { Field } from '../ui/field.js';
import { Trouble } from '../ui/trouble.js';
import { useEntries } from '../ui/use-entries.js';
import { useRequestKey } from '../ui/use-request-key.js';
import { planWords } from '../words/plan.js';
import { words } from '../words.js';
import { checkReplan, REPLAN_LISTS, type ReplanList, replanBody, replanField, replanLabel, workOptions } from './replan-fields.js';
import { rowField, rowsOf, withRows } from './row-entries.js';
import { RowList } from './row-list.js';

const said = planWords.replan;
const LISTS = Object.keys(REPLAN_LISTS) as ReplanList[];

interface ReplanProps {
  readonly plan: Schemas['PlanView'];
  readonly people: readonly Schemas['PersonPlanningView'][];
  readonly onPlanned: (planId: string) => void;
}

/** Plans anew from a plan with what has become known since; what was promised stays. */
export function ReplanForm({ plan, people, onPlanned }: ReplanProps) {
  const client = useQueryClient();
  const keyOf = useRequestKey();
  const form = useEntries<string, Schemas['PlanView']>({
    start: {},
    check: checkReplan,
    fieldAt: replanField,
    labelOf: replanLabel,
    send: (entries) => {
      const body = replanBody(entries);
      return api.POST('/api/plans/{id}/replan', { params: { path: { id: plan.id }, header: keyOf(body) }, body });
    },
    onDone: (planned) => {
      if (planned !== undefined) onPlanned(planned.id);
      void client.invalidateQueries();
    },
  });
  const work = workOptions(plan);
  const waiting = work.filter(({ isVisit }) => !isVisit);
  const rows = (list: ReplanList) => rowsOf(form.entries, list, REPLAN_LISTS[list]);
  const setRows = (list: ReplanList, next: readonly Readonly<Record<string, string>>[]) => form.setEntries((before) => withRows(before, list, next));
  const control = (list: ReplanList, at: number, field: string) => {
    const name = rowField(list, at, field);
    const options =
      field === 'personId' ? people.map(({ personId: id, name: text }) => ({ id, text })) : field === 'id' ? (list === 'urgent' ? waiting : work) : undefined;
    return (
      <Field key={name} {...form.field(name)} label={replanLabel(name)}>
        {(props) =>
          options === undefined ? (
            <input {...props} {...form.control(name)} type={field === 'minutes' ? 'text' : 'date'} autoComplete="off" />
          ) : (
            <select {...props} {...form.control(name)}>
              <option value="">{words.choose}</option>
              {options.map(({ id, text }) => (
                <option key={id} value={id}>
                  {text}
                </option>
              ))}
            </select>
          )
        }
      </Field>
    );
  };
  return (
    <>
      <p className="hint">{said.note}</p>
      <Trouble troubles={form.troubles} attempt={form.attempt} />
      <form noValidate onSubmit={form.submit}>
        {LISTS.map((list) => (
          <RowList
            key={list}
            level="h3"
            legend={said.lists[list]}
            one={said.ones[list]}
            none={said.none}
            add={said.adds[list]}
            count={rows(list).length}
            onAdd={() => setRows(list, [...rows(list), Object.fromEntries(REPLAN_LISTS[list].map((field) => [field, '']))])}
            onLeaveOut={(at) => setRows(list, rows(list).toSpliced(at, 1))}
          >
            {(at) => REPLAN_LISTS[list].map((field) => control(list, at, field))}
          </RowList>
        ))}
        <p className="row">
          <button type="submit" className="main-button" disabled={form.isSending}>
            {said.button}
          </button>
          <span role="status" className="hint">
            {form.isSending && planWords.searching}
          </span>
        </p>
      </form>
    </>
  );
}
