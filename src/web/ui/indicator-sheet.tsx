import type { Schemas } from '../api/client.js';
import { number } from '../format.js';
import { upkeepWords as said } from '../words/upkeep.js';
import { type Column, Sheet } from './sheet.js';

type Indicator = Schemas['IndicatorView'];

/** A plain count has no unit to show. */
const amount = ({ value, unit }: Schemas['QuantityView']) => `${number(value, Number.isInteger(value) ? 0 : 1)}${unit === '1' ? '' : ` ${unit}`}`;
const COLUMNS: readonly Column<Indicator>[] = [
  {
    name: said.indicators,
    cell: ({ name, meaning }) => (
      <>
        {name}
        <small>{meaning}</small>
      </>
    ),
  },
  {
    name: said.value,
    cell: ({ value, unit, tooLittle, lowerLimit }) => (
      <>
        {value === null ? (tooLittle ?? '–') : `${number(value, Math.abs(value) < 10 ? 2 : 1)} ${unit}`}
        {lowerLimit !== null && <small>{said.atLeast(`${number(lowerLimit, 1)} ${unit}`)}</small>}
        {value !== null && tooLittle !== null && <small>{tooLittle}</small>}
      </>
    ),
  },
  { name: said.counted, cell: ({ numerator }) => <Counted quantity={numerator} /> },
  { name: said.perWhat, cell: ({ denominator }) => <Counted quantity={denominator} /> },
  {
    name: said.formula,
    wide: true,
    cell: ({ formula, remarks, source }) => (
      <>
        {formula}
        <small>{[...remarks, source].filter(Boolean).join(' ')}</small>
      </>
    ),
  },
];

function Counted({ quantity }: { quantity: Schemas['QuantityView'] }) {
  return (
    <>
      {amount(quantity)}
      <small>{quantity.meaning}</small>
    </>
  );
}

/** Each figure with what it was counted from. */
export function IndicatorSheet({ indicators }: { indicators: readonly Indicator[] }) {
  return <Sheet caption={said.indicators} columns={COLUMNS} rows={indicators} keyOf={({ code }) => code} />;
}
