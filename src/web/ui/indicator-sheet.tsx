import type { Schemas } from '../api/client.js';
import { number } from '../format.js';
import { upkeepWords as said } from '../words/upkeep.js';
import { type Column, Sheet } from './sheet.js';

type Indicator = Schemas['IndicatorView'];

const quantity = ({ value, unit, meaning }: Schemas['QuantityView']) => `${number(value, Number.isInteger(value) ? 0 : 1)} ${unit}: ${meaning}`;
const COLUMNS: readonly Column<Indicator>[] = [
  { name: said.indicators, cell: ({ name }) => name },
  {
    name: said.value,
    cell: ({ value, unit, tooLittle, lowerLimit }) => (
      <>
        {value === null ? (tooLittle ?? '–') : `${number(value, Math.abs(value) < 10 ? 2 : 1)} ${unit}`}
        {lowerLimit !== null && <small>{said.atLeast(`${number(lowerLimit, 1)} ${unit}`)}</small>}
      </>
    ),
  },
  { name: said.counted, wide: true, cell: ({ numerator }) => quantity(numerator) },
  { name: said.perWhat, wide: true, cell: ({ denominator }) => quantity(denominator) },
  { name: said.formula, wide: true, cell: ({ formula, meaning, remarks }) => [formula, meaning, ...remarks].join('. ') },
];

/** Each figure with what it was counted from. */
export function IndicatorSheet({ indicators }: { indicators: readonly Indicator[] }) {
  return <Sheet caption={said.indicators} columns={COLUMNS} rows={indicators} keyOf={({ code }) => code} />;
}
