import '../../styles/planning.css';
import { Link } from 'wouter';
import { api, query, type Schemas } from '../../api/client.js';
import { ifMatch } from '../../api/if-match.js';
import type { RecordField } from '../../registry/record-fields.js';
import { RecordForm } from '../../registry/record-form.js';
import { PageHead } from '../../ui/page-head.js';
import { Loaded } from '../../ui/states.js';
import { rateWords as said } from '../../words/plan-rates.js';

const FIELDS: readonly RecordField[] = [
  {
    name: 'currency',
    label: said.currency,
    hint: said.currencyHint,
    required: true,
    parse: (text) => (/^[A-Za-z]{3}$/.test(text) ? { value: text.toUpperCase() } : { problem: said.needCode }),
  },
  { name: 'workHour', label: said.workHour, hint: said.workHint, empty: 'null' },
  { name: 'travelHour', label: said.travelHour, hint: said.travelHint, empty: 'null' },
  { name: 'overtimeHour', label: said.overtimeHour, hint: said.overtimeHint, empty: 'null' },
  { name: 'kilometre', label: said.kilometre, empty: 'null' },
  { name: 'nightAway', label: said.nightAway, hint: said.nightHint, empty: 'null' },
];

/** What an hour, a kilometre and a night cost, by which plans weigh. */
export default function RatesPage() {
  const rates = query.useQuery('get', '/api/planning/rates');
  return (
    <Loaded of={rates} what={said.what}>
      {(record) => (
        <>
          <PageHead over={<Link href="/plan">{said.toPlan}</Link>} title={said.title} />
          <p className="aside">{said.note}</p>
          {record.workHour === null && <p className="note-box">{said.none}</p>}
          {record.workHour !== null && <p>{record.waiting}</p>}
          <section className="block">
            <h2>{said.rates}</h2>
            <RecordForm
              key={record.version}
              fields={FIELDS}
              record={record}
              button={said.save}
              send={(body: Schemas['PlanRatesDto']) => api.PUT('/api/planning/rates', { headers: ifMatch(record), body })}
            />
          </section>
        </>
      )}
    </Loaded>
  );
}
