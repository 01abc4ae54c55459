import { useId } from 'react';
import { written } from '../format.js';
import { newUuid } from '../new-uuid.js';
import { readDecimal } from '../readings/hand-fields.js';
import { workWords } from '../words/work.js';
import { words } from '../words.js';
import { addRow, plannedParts, rowField, rowsOf, setEntry } from './draft.js';
import { onHandIn, placeOptions } from './fitted-section.js';
import { useItemOptions } from './item-options.js';
import { controlId, PickEntry, TextEntry, TickEntry, useSheetForm } from './sheet-form.js';

const LIST = 'partsUsed';

/** Parts used: those that are planned, each with buttons for one less and one more, and whatever else came out of the van. */
export function PartsSection() {
  const { draft, change } = useSheetForm();
  const headId = useId();
  const addId = useId();
  const items = useItemOptions(draft);
  const planned = plannedParts(draft.sheet);
  const fits = rowsOf(draft, 'partsFitted').length > 0;
  const van = draft.places.find(({ kind }) => kind === 'van') ?? draft.places[0];
  const takeAsPlanned = () =>
    change((before) => planned.reduce((next, { itemId, quantity }) => setEntry(next, rowField(LIST, itemId, 'quantity'), quantity), before));
  return (
    <section className="block" aria-labelledby={headId}>
      <div className="block-head">
        <h2 id={headId}>{workWords.parts}</h2>
        {planned.length > 0 && (
          <button type="button" onClick={takeAsPlanned}>
            {workWords.asPlanned}
          </button>
        )}
      </div>
      <p className="hint">{[planned.length === 0 ? workWords.partsNone : '', fits ? workWords.fittedApart : ''].filter(Boolean).join(' ')}</p>
      {draft.places.length === 0 && <p className="note-box">{workWords.noPlaces}</p>}
      {rowsOf(draft, LIST).map((row) => (
        <UsedPart key={row} row={row} />
      ))}
      <div className="field">
        <label htmlFor={addId}>{workWords.addPart}</label>
        <select
          id={addId}
          value=""
          onChange={({ target: { value } }) => change((before) => addRow(before, LIST, newUuid(), { itemId: value, quantity: '1', placeId: van?.id ?? '' }))}
        >
          <option value="">{words.choose}</option>
          {items.map(({ value, label }) => (
            <option key={value} value={value}>
              {label}
            </option>
          ))}
        </select>
      </div>
    </section>
  );
}

function UsedPart({ row }: { row: string }) {
  const { draft, entry, remove } = useSheetForm();
  const field = (part: string) => rowField(LIST, row, part);
  const itemId = entry(field('itemId'));
  const planned = plannedParts(draft.sheet).find((part) => part.itemId === itemId);
  const isPlanned = row === itemId;
  const place = draft.places.find(({ id }) => id === entry(field('placeId')));
  const onHand = place === undefined ? 0 : onHandIn(place, itemId);
  const quantity = readDecimal(entry(field('quantity'))) ?? 0;
  const name = useItemOptions(draft).find(({ value }) => value === itemId)?.label ?? itemId;
  const hint = [
    planned === undefined ? '' : workWords.planned(written(Number(planned.quantity))),
    place === undefined ? '' : workWords.onHand(written(onHand), place.name),
  ];
  const isShort = place !== undefined && quantity > onHand;
  return (
    <fieldset className="group part">
      <legend>{name}</legend>
      <p className="hint">{hint.filter(Boolean).join(' ')}</p>
      <Stepper field={field('quantity')} name={name} />
      {isShort && (
        <>
          <p className="outside" role="status">
            {workWords.overStock(written(onHand), place.name)}
          </p>
          <TickEntry field={field('countWasWrong')} label={workWords.countWasWrong} />
        </>
      )}
      {quantity > 0 && (
        <>
          <PickEntry field={field('placeId')} label={workWords.from} options={placeOptions(draft)} empty={workWords.notFromStock} />
          <TextEntry field={field('lot')} label={workWords.lot} />
        </>
      )}
      {!isPlanned && (
        <button type="button" onClick={() => remove(LIST, row)}>
          {workWords.remove}
          <span className="unseen"> {name}</span>
        </button>
      )}
    </fieldset>
  );
}

function Stepper({ field, name }: { field: string; name: string }) {
  const { draft, entry, set, problems } = useSheetForm();
  const now = readDecimal(entry(field)) ?? 0;
  const problem = problems[field];
  return (
    <div className={problem === undefined ? 'stepper' : 'stepper field wrong'}>
      {problem !== undefined && (
        <p className="fix" id={`${controlId(field)}-problem`}>
          {problem}
        </p>
      )}
      <div className="stepper-row">
        <button type="button" disabled={now <= 0} onClick={() => set(field, String(Math.max(0, now - 1)))}>
          <span aria-hidden="true">−</span>
          <span className="unseen">{workWords.less(name)}</span>
        </button>
        <input
          id={controlId(field)}
          aria-label={`${workWords.quantity}, ${name}`}
          aria-describedby={problem === undefined ? undefined : `${controlId(field)}-problem`}
          aria-invalid={problem === undefined ? undefined : true}
          inputMode="decimal"
          autoComplete="off"
          value={draft.entries[field] ?? ''}
          onChange={(event) => set(field, event.target.value)}
        />
        <button type="button" onClick={() => set(field, String(now + 1))}>
          <span aria-hidden="true">+</span>
          <span className="unseen">{workWords.more(name)}</span>
        </button>
      </div>
    </div>
  );
}
