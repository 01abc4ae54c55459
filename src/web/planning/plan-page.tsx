import '../styles/planning.css';
import '../styles/plan.css';
import { Link } from 'wouter';
import { query } from '../api/client.js';
import { moment } from '../format.js';
import { Choice } from '../ui/choice.js';
import { PageHead } from '../ui/page-head.js';
import { Empty, Loaded } from '../ui/states.js';
import { useChoices } from '../ui/use-choices.js';
import { planWords } from '../words/plan.js';
import { rateWords } from '../words/plan-rates.js';
import { travelWords } from '../words/travel.js';
import { FoundPlan } from './found-plan.js';
import { SearchForm } from './search-form.js';

const ZONE = Intl.DateTimeFormat().resolvedOptions().timeZone;
/** So many are offered to look back at */
const MOST = 20;

/** A plan of visits: searched, drawn along the time of each day, and read as a table. */
export default function PlanPage() {
  const choices = useChoices<'plan'>();
  const plans = query.useQuery('get', '/api/plans', { params: { query: { limit: MOST } } });
  return (
    <>
      <PageHead title={planWords.title} />
      <p className="aside">{planWords.note}</p>
      <p className="no-print">
        <Link className="target" href="/plan/rates">
          {rateWords.enter}
        </Link>{' '}
        <Link className="target" href="/plan/travel">
          {travelWords.enter}
        </Link>
      </p>
      <SearchForm onFound={({ id }) => choices.choose('plan', id)} />
      <Loaded of={plans} what={planWords.whatPlans}>
        {({ items }) => {
          const id = choices.of('plan') ?? items[0]?.id;
          if (id === undefined) return <Empty title={planWords.noPlan}>{planWords.noPlanWhy}</Empty>;
          return (
            <>
              <div className="tools no-print">
                <Choice
                  label={planWords.plans}
                  value={choices.of('plan')}
                  options={items.map(({ id: value, no, madeAt, madeBy }) => ({ value, label: planWords.planOf(no, moment(madeAt, ZONE), madeBy) }))}
                  all={planWords.latestPlan}
                  onChoose={(plan) => choices.choose('plan', plan)}
                />
              </div>
              <FoundPlan key={id} planId={id} onPlanned={(plan) => choices.choose('plan', plan)} />
            </>
          );
        }}
      </Loaded>
    </>
  );
}
