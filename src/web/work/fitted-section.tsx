import { written } from '../format.js';
import { readDecimal } from '../readings/hand-fields.js';
import { words } from '../words.js';
import { type Draft, rowField } from './draft.js';
import { DecimalEntry, type Option, PickEntry, TextEntry, TickEntry, useSheetForm } from './sheet-form.js';
import type { Place } from './sheet-types.js';

/** A part that was fitted: a single one by its serial number, or a set by lot and count. */
export function FittedRow({ row }: { row: string }) {
  const { draft, entry } = useSheetForm();
  const field = (part: string) => rowField('partsFitted', row, part);
  const place = draft.places.find(({ id }) => id === entry(field('fromPlaceId')));
  const isShort = place !== undefined && (readDecimal(entry(field('setCount'))) ?? 1) > onHandIn(place, entry(field('itemId')));
  return (
    <fieldset className="group">
      <legend>{words.work.fittedOne}</legend>
      <PickEntry field={field('positionId')} label={words.work.position} options={positionOptions(draft)} />
      <PickEntry field={field('itemId')} label={words.work.item} options={itemOptions(draft)} />
      <TextEntry field={field('serialNumber')} label={words.work.serialNumber} hint={words.work.serialHint} />
      <TextEntry field={field('lot')} label={words.work.lot} />
      <DecimalEntry field={field('setCount')} label={words.work.setCount} />
      <TextEntry field={field('removalReason')} label={words.work.removalReason} />
      <PickEntry field={field('fromPlaceId')} label={words.work.from} options={placeOptions(draft)} empty={words.work.notFromStock} />
      {isShort && (
        <>
          <p className="outside" role="status">
            {words.work.overStock(written(onHandIn(place, entry(field('itemId')))), place.name)}
          </p>
          <TickEntry field={field('countWasWrong')} label={words.work.countWasWrong} />
        </>
      )}
    </fieldset>
  );
}

export function RemovedRow({ row }: { row: string }) {
  const { draft } = useSheetForm();
  const field = (part: string) => rowField('partsRemoved', row, part);
  return (
    <>
      <PickEntry field={field('positionId')} label={words.work.position} options={positionOptions(draft)} />
      <TextEntry field={field('reason')} label={words.work.removalReason} />
      <PickEntry field={field('toPlaceId')} label={words.work.toPlace} options={placeOptions(draft)} empty={words.work.scrapped} />
    </>
  );
}

/** How many of an item a place should hold. */
export const onHandIn = ({ stock }: Place, itemId: string): number => Number(stock.find((line) => line.itemId === itemId)?.onHand ?? 0);

export const positionOptions = ({ sheet }: Draft): Option[] => sheet.positions.map(({ id, name }) => ({ value: id, label: name }));
export const placeOptions = ({ places }: Draft): Option[] => places.map(({ id, name }) => ({ value: id, label: name }));

/** What a part can be: what the sheet plans for, what is fitted now, and what lies in the van and the stores. */
export function itemOptions({ sheet, places }: Draft): Option[] {
  const items = [...sheet.tasks.flatMap(({ parts, fitted }) => [...parts, ...(fitted === null ? [] : [fitted])]), ...places.flatMap(({ stock }) => stock)];
  return [...new Map(items.map(({ itemId, name, code }) => [itemId, { value: itemId, label: `${name} (${code})` }])).values()];
}
