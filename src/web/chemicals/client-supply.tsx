import { Link } from 'wouter';
import { query } from '../api/client.js';
import { Empty, Loaded } from '../ui/states.js';
import { chemicalWords } from '../words/chemicals.js';
import { ReminderCard } from './reminder-card.js';

const { supply } = chemicalWords;

/** The tanks that a client fills and that ask for something now, as a section of another page: nothing where nothing is asked, unless it is the whole page. */
export function ClientSupply({ alone }: { alone?: true }) {
  const tanks = query.useQuery('get', '/api/tanks/cover', { params: { query: { suppliedBy: 'client', limit: 200 } } });
  const asking = tanks.data?.items.filter(({ reminder, awaited }) => reminder !== null || awaited !== null) ?? [];
  if (alone !== true && asking.length === 0) return null;
  return (
    <section className="block">
      {alone !== true && <h2>{supply.title}</h2>}
      <Loaded of={tanks} what={supply.what}>
        {() =>
          asking.length === 0 ? (
            <Empty title={supply.none}>{supply.noneWhy}</Empty>
          ) : (
            asking.map((tank) => (
              <article key={tank.tankId} className="block">
                <h3>
                  <Link href={`/tanks/${tank.tankId}`}>{tank.tankName}</Link>, {tank.chemical}
                </h3>
                <p className="hint">
                  {tank.skidName}, {tank.siteName}
                </p>
                <ReminderCard tank={tank} takesDelivery />
              </article>
            ))
          )
        }
      </Loaded>
    </section>
  );
}
