import { query } from '../api/client.js';
import { newUuid } from '../new-uuid.js';
import { Field } from '../ui/field.js';
import { sheetWords as said } from '../words/task-sheets.js';
import { words } from '../words.js';
import type { ChemicalDraft, PartDraft } from './sheet-draft.js';
import { SheetRows } from './sheet-rows.js';
import type { SheetForm } from './use-sheet-draft.js';

const MOST = 200;

/** The parts that the task takes from stock. */
export function SheetParts({ form }: { form: SheetForm }) {
  const items = query.useQuery('get', '/api/items', { params: { query: { limit: MOST } } });
  const { parts } = form.draft;
  const onChange = (rows: readonly PartDraft[]) => form.changeRows({ parts: rows });
  const listed = (items.data?.items ?? []).map(({ id, name, code }) => ({ id, label: `${name} (${code})` }));
  return (
    <section className="block">
      <h2>{said.parts}</h2>
      <SheetRows rows={parts} nameOf={said.part} onChange={onChange}>
        {({ itemId, name, quantity, everyVisit }, at, change) => (
          <>
            <div className="fields">
              <Field {...form.field(`parts/${at}/itemId`)} label={said.item}>
                {(props) => (
                  <select {...props} value={itemId} onChange={({ target }) => change({ itemId: target.value })}>
                    <option value="">{words.choose}</option>
                    {itemId !== '' && listed.every(({ id }) => id !== itemId) && <option value={itemId}>{name}</option>}
                    {listed.map(({ id, label }) => (
                      <option key={id} value={id}>
                        {label}
                      </option>
                    ))}
                  </select>
                )}
              </Field>
              <Field {...form.field(`parts/${at}/quantity`)} label={said.quantity}>
                {(props) => (
                  <input {...props} value={quantity} inputMode="decimal" autoComplete="off" onChange={({ target }) => change({ quantity: target.value })} />
                )}
              </Field>
            </div>
            <label className="tick">
              <input type="checkbox" checked={everyVisit} onChange={({ target }) => change({ everyVisit: target.checked })} />
              <span>{said.everyVisit}</span>
            </label>
          </>
        )}
      </SheetRows>
      <div className="row">
        <button type="button" onClick={() => onChange([...parts, { key: newUuid(), itemId: '', name: '', quantity: '1', everyVisit: false }])}>
          {said.addPart}
        </button>
      </div>
    </section>
  );
}

/** The chemicals that the task takes, by their names on the drum. */
export function SheetChemicals({ form }: { form: SheetForm }) {
  const { chemicals } = form.draft;
  const onChange = (rows: readonly ChemicalDraft[]) => form.changeRows({ chemicals: rows });
  return (
    <section className="block">
      <h2>{said.chemicals}</h2>
      <SheetRows rows={chemicals} nameOf={said.chemicalNo} onChange={onChange}>
        {(row, at, change) => (
          <div className="fields">
            {(['chemical', 'litres', 'strength'] as const).map((name) => (
              <Field key={name} {...form.field(`chemicals/${at}/${name}`)} label={said[name]}>
                {(props) => <input {...props} value={row[name]} autoComplete="off" onChange={({ target }) => change({ [name]: target.value })} />}
              </Field>
            ))}
          </div>
        )}
      </SheetRows>
      <div className="row">
        <button type="button" onClick={() => onChange([...chemicals, { key: newUuid(), chemical: '', litres: '', strength: '' }])}>
          {said.addChemical}
        </button>
      </div>
    </section>
  );
}
