import '../styles/plan.css';
import { Link } from 'wouter';
import { query } from '../api/client.js';
import { PageHead } from '../ui/page-head.js';
import { Loaded } from '../ui/states.js';
import { visitWords } from '../words/visits.js';
import { KitList } from './kit-list.js';
import { weekday } from './weekday.js';

/** The kit list on paper, to be ticked off at the shelf. */
export default function KitPage({ visitId }: { visitId: string }) {
  const params = { params: { path: { id: visitId } } };
  const visit = query.useQuery('get', '/api/visits/{id}', params);
  const kit = query.useQuery('get', '/api/visits/{id}/kit', params);
  return (
    <Loaded of={visit} what={visitWords.one}>
      {(found) => (
        <>
          <PageHead
            over={<Link href={`/visits/${visitId}`}>{visitWords.name(found.no)}</Link>}
            title={visitWords.kit.of(found.no, found.siteName)}
            facts={[
              { name: visitWords.day, value: `${weekday(found.onDay)}, ${found.startTime}` },
              { name: visitWords.facts.who, value: found.people.map(({ name }) => name).join(', ') },
            ]}
          />
          <p className="row no-print">
            <button type="button" className="main-button" onClick={() => print()}>
              {visitWords.kit.print}
            </button>
          </p>
          <section className="block">
            <h2>{visitWords.kit.title}</h2>
            <Loaded of={kit} what={visitWords.kit.what}>
              {(list) => <KitList kit={list} onPaper />}
            </Loaded>
          </section>
        </>
      )}
    </Loaded>
  );
}
