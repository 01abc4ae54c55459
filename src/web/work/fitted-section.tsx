import { written } from '../format.js';
import { readDecimal } from '../readings/hand-fields.js';
import { workWords } from '../words/work.js';
import { type Draft, rowField } from './draft.js';
import { useItemOptions } from './item-options.js';
import { DecimalEntry, type Option, PickEntry, TextEntry, TickEntry, useSheetForm } from './sheet-form.js';
import type { Place } from './sheet-types.js';

/** A part that was fitted: a single one by its serial number, or a set by lot and count. */
export function FittedRow({ row }: { row: string }) {
  const { draft, entry } = useSheetForm();
  const items = useItemOptions(draft);
  const field = (part: string) => rowField('partsFitted', row, part);
  const place = draft.places.find(({ id }) => id === entry(field('fromPlaceId')));
  const isShort = place !== undefined && (readDecimal(entry(field('setCount'))) ?? 1) > onHandIn(place, entry(field('itemId')));
  return (
    <fieldset className="group">
      <legend>{workWords.fittedOne}</legend>
      <PickEntry field={field('positionId')} label={workWords.position} options={positionOptions(draft)} />
      <PickEntry field={field('itemId')} label={workWords.item} options={items} />
      <TextEntry field={field('serialNumber')} label={workWords.serialNumber} hint={workWords.serialHint} />
      <TextEntry field={field('lot')} label={workWords.lot} />
      <DecimalEntry field={field('setCount')} label={workWords.setCount} />
      <TextEntry field={field('removalReason')} label={workWords.removalReason} />
      <PickEntry field={field('fromPlaceId')} label={workWords.from} options={placeOptions(draft)} empty={workWords.notFromStock} />
      {isShort && (
        <>
          <p className="outside" role="status">
            {workWords.overStock(written(onHandIn(place, entry(field('itemId')))), place.name)}
          </p>
          <TickEntry field={field('countWasWrong')} label={workWords.countWasWrong} />
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
      <PickEntry field={field('positionId')} label={workWords.position} options={positionOptions(draft)} />
      <TextEntry field={field('reason')} label={workWords.removalReason} />
      <PickEntry field={field('toPlaceId')} label={workWords.toPlace} options={placeOptions(draft)} empty={workWords.scrapped} />
    </>
  );
}

/** How many of an item a place should hold. */
export const onHandIn = ({ stock }: Place, itemId: string): number => Number(stock.find((line) => line.itemId === itemId)?.onHand ?? 0);

export const positionOptions = ({ sheet }: Draft): Option[] => sheet.positions.map(({ id, name }) => ({ value: id, label: name }));
export const placeOptions = ({ places }: Draft): Option[] => places.map(({ id, name }) => ({ value: id, label: name }));
