import '../styles/plan.css';
import { query, type Schemas } from '../api/client.js';
import { problemOf } from '../api/problem.js';
import { day, minutes } from '../format.js';
import { PageHead } from '../ui/page-head.js';
import { Failed, Loaded, Loading } from '../ui/states.js';
import { visitWords } from '../words/visits.js';
import { Consequences } from './consequences.js';
import { KitList } from './kit-list.js';
import { VisitActions } from './visit-actions.js';
import { VisitAnswers } from './visit-answers.js';
import { VisitChanges } from './visit-changes.js';
import { VisitNotes } from './visit-notes.js';
import { VisitStateWord } from './visit-state.js';
import { VisitWork } from './visit-work.js';
import { endOfVisit } from './week.js';
import { weekday } from './weekday.js';

type Visit = Schemas['VisitDetailView'];

export default function VisitPage({ visitId }: { visitId: string }) {
  const asked = query.useQuery('get', '/api/visits/{id}', { params: { path: { id: visitId } } });
  if (asked.data === undefined) {
    if (!asked.isError) return <Loading what={visitWords.one} />;
    return (
      <>
        <PageHead title={problemOf(asked.error).status === 404 ? visitWords.unknown : visitWords.visit} />
        <Failed what={visitWords.one} error={asked.error} again={() => void asked.refetch()} />
      </>
    );
  }
  const visit = asked.data;
  const isToCome = visit.state === 'planned' || visit.state === 'promised';
  return (
    <>
      <PageHead over={`${visit.siteName}, ${visit.clientName}`} title={visitWords.named(visit.no, day(visit.onDay))} facts={factsOf(visit)} />
      <VisitActions visit={visit} />
      {isToCome && <Consequences list={visit.consequences} />}
      <VisitAnswers visit={visit} />
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
      <h2>{visitWords.kit.title}</h2>
      <Loaded of={kit} what={visitWords.kit.what}>
        {(list) => <KitList kit={list} />}
      </Loaded>
    </section>
  );
}

const factsOf = (visit: Visit) => [
  { name: visitWords.facts.state, value: <VisitStateWord visit={visit} /> },
  { name: visitWords.facts.time, value: `${weekday(visit.onDay)}, ${visitWords.from(visit.startTime, endOfVisit(visit))}` },
  { name: visitWords.facts.takes, value: visitWords.takes(minutes(visit.minutes), visit.breakMinutes === 0 ? null : minutes(visit.breakMinutes)) },
  { name: visitWords.facts.who, value: visit.people.map(({ name }) => name).join(', ') },
  ...(visit.accessHours === '' ? [] : [{ name: visitWords.facts.access, value: visit.accessHours }]),
];
