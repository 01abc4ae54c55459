import { query, type Schemas } from '../api/client.js';
import { problemOf } from '../api/problem.js';
import { day, minutes } from '../format.js';
import { PageHead } from '../ui/page-head.js';
import { Failed, Loaded, Loading } from '../ui/states.js';
import { words } from '../words.js';
import { Consequences } from './consequences.js';
import { KitList } from './kit-list.js';
import { VisitActions } from './visit-actions.js';
import { VisitChanges } from './visit-changes.js';
import { VisitNotes } from './visit-notes.js';
import { VisitStateWord } from './visit-state.js';
import { VisitWork } from './visit-work.js';
import { timeAfter } from './week.js';
import { weekday } from './weekday.js';

type Visit = Schemas['VisitDetailView'];

export default function VisitPage({ visitId }: { visitId: string }) {
  const asked = query.useQuery('get', '/api/visits/{id}', { params: { path: { id: visitId } } });
  if (asked.data === undefined) {
    if (!asked.isError) return <Loading what={words.visits.one} />;
    return (
      <>
        <PageHead title={problemOf(asked.error).status === 404 ? words.visits.unknown : words.visits.visit} />
        <Failed what={words.visits.one} error={asked.error} again={() => void asked.refetch()} />
      </>
    );
  }
  const visit = asked.data;
  const isToCome = visit.state === 'planned' || visit.state === 'promised';
  return (
    <>
      <PageHead over={`${visit.siteName}, ${visit.clientName}`} title={words.visits.named(visit.no, day(visit.onDay))} facts={factsOf(visit)} />
      <VisitActions visit={visit} />
      {isToCome && <Consequences list={visit.consequences} />}
      <VisitWork visit={visit} />
      {visit.state !== 'finished' && visit.state !== 'called off' && <Kit visitId={visitId} />}
      <VisitNotes visit={visit} />
      <VisitChanges changes={visit.changes} timeZone={visit.timeZone} />
    </>
  );
}

function Kit({ visitId }: { visitId: string }) {
  const kit = query.useQuery('get', '/api/visits/{id}/kit', { params: { path: { id: visitId } } });
  return (
    <section className="block">
      <h2>{words.visits.kit.title}</h2>
      <Loaded of={kit} what={words.visits.kit.what}>
        {(list) => <KitList kit={list} />}
      </Loaded>
    </section>
  );
}

const factsOf = (visit: Visit) => [
  { name: words.visits.facts.state, value: <VisitStateWord visit={visit} /> },
  { name: words.visits.facts.time, value: `${weekday(visit.onDay)}, ${words.visits.from(visit.startTime, timeAfter(visit.startTime, visit.minutes))}` },
  { name: words.visits.facts.takes, value: minutes(visit.minutes) },
  { name: words.visits.facts.who, value: visit.people.map(({ name }) => name).join(', ') },
  ...(visit.accessHours === '' ? [] : [{ name: words.visits.facts.access, value: visit.accessHours }]),
];
