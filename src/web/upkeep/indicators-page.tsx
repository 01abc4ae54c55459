<<<<<<< HEAD
import '../styles/upkeep.css';
import { query, type Schemas } from '../api/client.js';
import { number, written } from '../format.js';
import { Choice } from '../ui/choice.js';
=======
import { useState } from 'react';
import { query } from '../api/client.js';
import { IndicatorSheet } from '../ui/indicator-sheet.js';
>>>>>>> 4d57997 (wip)
import { PageHead } from '../ui/page-head.js';
import { lastDays, PeriodFields } from '../ui/period-fields.js';
import { Loaded } from '../ui/states.js';
import { useChoices } from '../ui/use-choices.js';
import { upkeepWords as said } from '../words/upkeep.js';
import { ClientChoice, SkidChoice } from './scope-choices.js';

<<<<<<< HEAD
type Indicator = Schemas['IndicatorView'];
type Quantity = Schemas['QuantityView'];

const amount = ({ value, unit }: Quantity) => `${Number.isInteger(value) ? number(value) : number(value, 1)} ${unit}`;
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
    cell: ({ formula, remarks, source }) => [formula, <small key="more">{[...remarks, source].filter(Boolean).join('. ')}</small>],
  },
];

const dayOf = (atMs: number) => new Date(atMs).toISOString().slice(0, 10);
const COUNTS = ['stops', 'all'] as const;

/** How reliable the fleet, a client's skids or one skid was and how the work went, each figure with what it was counted from. */
export default function IndicatorsPage() {
  const choices = useChoices<'client' | 'skid' | 'from' | 'to' | 'count'>();
  const [clientId, skidId] = [choices.of('client'), choices.of('skid')];
  const count = COUNTS.find((one) => one === choices.of('count')) ?? 'stops';
  const period = { from: choices.of('from') ?? dayOf(Date.now() - 365 * 86_400_000), to: choices.of('to') ?? dayOf(Date.now()) };
  const scope = { ...(clientId && { clientId }), ...(skidId && { skidId }) };
  const found = query.useQuery('get', '/api/indicators', { params: { query: { ...period, ...scope, count } } }, { placeholderData: (before) => before });
=======
/** How reliable the fleet was and how the work went, each figure with what it was counted from. */
export default function IndicatorsPage() {
  const [period, setPeriod] = useState(() => lastDays(365));
  const isWhole = period.from !== '' && period.to !== '';
  const found = query.useQuery(
    'get',
    '/api/indicators',
    { params: { query: { ...period, count: 'stops' } } },
    { placeholderData: (before) => before, enabled: isWhole },
  );
>>>>>>> 4d57997 (wip)
  return (
    <>
      <PageHead title={said.indicators} />
      <section className="block">
<<<<<<< HEAD
        <div className="tools no-print">
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
          {(['from', 'to'] as const).map((end) => (
            <span className="pick" key={end}>
              <label htmlFor={`indicators-${end}`}>{said[end]}</label>
              <input id={`indicators-${end}`} type="date" value={period[end]} onChange={({ target }) => choices.choose(end, target.value)} />
            </span>
          ))}
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
=======
        <div className="tools period-tools no-print">
          <PeriodFields period={period} onChange={setPeriod} />
        </div>
        <Loaded of={found} what={said.whatIndicators}>
          {({ indicators }) => <IndicatorSheet indicators={indicators} />}
>>>>>>> 4d57997 (wip)
        </Loaded>
      </section>
    </>
  );
}
