import { useQueryClient } from '@tanstack/react-query';
import { api, type Schemas } from '../api/client.js';
import { Field } from '../ui/field.js';
import { Trouble } from '../ui/trouble.js';
import { useEntries } from '../ui/use-entries.js';
import { repairWords as said } from '../words/repairs.js';
import { words } from '../words.js';
import { useEntered } from './use-entered.js';
import { usePlaces } from './use-places.js';

type Repair = Schemas['RepairView'];
type Outcome = Schemas['RepairBackDto']['outcome'];
type Name = 'outcome' | 'placeId' | 'done';
const OUTCOMES = Object.keys(said.about) as Outcome[];

/** How a part came back from repair, or that it was scrapped there. */
export function RepairBack({ repair, close }: { repair: Repair; close: () => void }) {
  const client = useQueryClient();
  const places = usePlaces().filter(({ kind }) => kind !== 'transit' && kind !== 'repair');
  const entered = useEntered();
  const form = useEntries<Name, Repair>({
    start: { outcome: 'repaired', placeId: repair.fromPlaceId, done: '' },
    check: ({ outcome, placeId, done }) => ({
      ...(outcome !== 'scrapped' && placeId === '' ? { placeId: said.needPlace } : {}),
      ...((outcome === 'scrapped' || outcome === 'not repaired') && done.trim() === '' ? { done: said.needDone } : {}),
    }),
    fieldAt: (pointer) => (pointer.startsWith('#/moves') ? 'placeId' : (pointer.split('/')[1] ?? pointer)),
    send: ({ outcome, placeId, done }) => {
      const body = { outcome: outcome as Outcome, placeId: outcome === 'scrapped' ? null : placeId, done: done.trim() };
      return api.POST('/api/repairs/{id}/back', { params: { path: { id: repair.id } }, body: { ...entered.of(body), ...body } });
    },
    onDone: () => {
      close();
      void client.invalidateQueries();
    },
  });
  return (
    <form noValidate onSubmit={form.submit}>
      <Trouble troubles={form.troubles} attempt={form.attempt} />
      <Field {...form.field('outcome')} label={said.outcome}>
        {(props) => (
          <select {...props} {...form.control('outcome')}>
            {OUTCOMES.map((outcome) => (
              <option key={outcome} value={outcome}>
                {said.about[outcome]}
              </option>
            ))}
          </select>
        )}
      </Field>
      {form.entries.outcome !== 'scrapped' && (
        <Field {...form.field('placeId')} label={said.place}>
          {(props) => (
            <select {...props} {...form.control('placeId')}>
              <option value="">{words.choose}</option>
              {places.map(({ id, name }) => (
                <option key={id} value={id}>
                  {name}
                </option>
              ))}
            </select>
          )}
        </Field>
      )}
      <Field {...form.field('done')} label={said.done}>
        {(props) => <textarea {...props} {...form.control('done')} rows={2} maxLength={500} />}
      </Field>
      <div className="row">
        <button type="submit" className="main-button" disabled={form.isSending}>
          {said.enter}
        </button>
        <button type="button" onClick={close}>
          {words.cancel}
        </button>
      </div>
    </form>
  );
}
