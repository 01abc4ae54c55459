import { useState } from 'react';
import { query, type Schemas } from '../api/client.js';
import { number } from '../format.js';
import { PageHead } from '../ui/page-head.js';
import { type Column, Sheet } from '../ui/sheet.js';
import { Loaded } from '../ui/states.js';
import { upkeepWords as said } from '../words/upkeep.js';

type Indicator = Schemas['IndicatorView'];
type Quantity = Schemas['QuantityView'];

const quantity = ({ value, unit, meaning }: Quantity) => `${number(value, Number.isInteger(value) ? 0 : 1)} ${unit}: ${meaning}`;
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

/** How reliable the fleet was and how the work went, each figure with what it was counted from. */
export default function IndicatorsPage() {
  const [period, setPeriod] = useState(() => {
    const to = new Date();
    return { from: new Date(to.getTime() - 365 * 86_400_000).toISOString().slice(0, 10), to: to.toISOString().slice(0, 10) };
  });
  const found = query.useQuery('get', '/api/indicators', { params: { query: { ...period, count: 'stops' } } }, { placeholderData: (before) => before });
  return (
    <>
      <PageHead title={said.indicators} />
      <section className="block">
        <div className="tools no-print">
          {(['from', 'to'] as const).map((end) => (
            <div className="field" key={end}>
              <label htmlFor={`indicators-${end}`}>{said[end]}</label>
              <input
                id={`indicators-${end}`}
                type="date"
                value={period[end]}
                onChange={({ target }) => setPeriod((before) => ({ ...before, [end]: target.value }))}
              />
            </div>
          ))}
        </div>
        <Loaded of={found} what={said.whatIndicators}>
          {({ indicators }) => <Sheet caption={said.indicators} columns={COLUMNS} rows={indicators} keyOf={({ code }) => code} />}
        </Loaded>
      </section>
    </>
  );
}
