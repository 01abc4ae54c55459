import '../styles/upkeep.css';
import { useState } from 'react';
import { query, type Schemas } from '../api/client.js';
import { number, written } from '../format.js';
import { Choice } from '../ui/choice.js';

import { PageHead } from '../ui/page-head.js';
import { lastDays, PeriodFields } from '../ui/period-fields.js';
import { type Column, Sheet } from '../ui/sheet.js';
import { Loaded } from '../ui/states.js';
import { useChoices } from '../ui/use-choices.js';
import { upkeepWords as said } from '../words/upkeep.js';
import { ClientChoice, SkidChoice } from './scope-choices.js';

type Indicator = Schemas['IndicatorView'];
type Quantity = Schemas['QuantityView'];

/** A plain count has no unit to show. */
const amount = ({ value, unit }: Quantity) => `${Number.isInteger(value) ? number(value) : number(value, 1)}${unit === '1' ? '' : ` ${unit}`}`;
const COLUMNS: readonly Column<Indicator>[] = [
  { name: said.indicators, cell: ({ name, meaning }) => [name, <small key="meaning">{meaning}</small>] },
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
  { name: said.counted, cell: ({ numerator }) => [amount(numerator), <small key="meaning">{numerator.meaning}</small>] },
  { name: said.perWhat, cell: ({ denominator }) => [amount(denominator), <small key="meaning">{denominator.meaning}</small>] },
  {
    name: said.formula,
    wide: true,
    cell: ({ formula, remarks, source }) => [formula, <small key="more">{[...remarks, source].filter(Boolean).join(' ')}</small>],
  },
];

const COUNTS = ['stops', 'all'] as const;

/** How reliable the fleet, a client's skids or one skid was and how the work went, each figure with what it was counted from. */
export default function IndicatorsPage() {
  const choices = useChoices<'client' | 'skid' | 'from' | 'to' | 'count'>();
  const [clientId, skidId] = [choices.of('client'), choices.of('skid')];
  const count = COUNTS.find((one) => one === choices.of('count')) ?? 'stops';
  const [usual] = useState(() => lastDays(365));
  const period = { from: choices.of('from') ?? usual.from, to: choices.of('to') ?? usual.to };
  const scope = { ...(clientId && { clientId }), ...(skidId && { skidId }) };
  const found = query.useQuery('get', '/api/indicators', { params: { query: { ...period, ...scope, count } } }, { placeholderData: (before) => before });
  return (
    <>
      <PageHead title={said.indicators} />
      <section className="block">
        <div className="tools period-tools no-print">
          <ClientChoice
            value={clientId}
            onChoose={(id) => {
              choices.choose('client', id);
              choices.choose('skid', '');
            }}
          />
          <SkidChoice clientId={clientId} value={skidId} onChoose={(id) => choices.choose('skid', id)} />
          <Choice
            label={said.failures}
            value={count === 'stops' ? undefined : count}
            all={said.stopsOnly}
            options={[{ value: 'all', label: said.everyBreakdown }]}
            onChoose={(value) => choices.choose('count', value)}
          />
          <PeriodFields
            period={period}
            onChange={({ from, to }) => {
              choices.choose('from', from);
              choices.choose('to', to);
            }}
          />
        </div>
        <Loaded of={found} what={said.whatIndicators}>
          {({ skids, indicators }) => (
            <>
              <p role="status" className="count">
                {said.ofSkids(written(skids))}
              </p>
              <Sheet caption={said.indicators} columns={COLUMNS} rows={indicators} keyOf={({ code }) => code} />
            </>
          )}
        </Loaded>
      </section>
    </>
  );
}
