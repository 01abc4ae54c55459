import { useState } from 'react';
import { api, query, type Schemas } from '../api/client.js';
import { moment } from '../format.js';
import { useMay } from '../session/session.js';
import { SayDialog } from '../ui/say-dialog.js';
import { answerWords as said } from '../words/visit-answers.js';
import { weekday } from './weekday.js';

type Visit = Schemas['VisitDetailView'];
type Proposal = Schemas['ProposalView'];

/** Whether the client was asked about the day, and what they answered; a planned visit can be proposed here. */
export function VisitAnswers({ visit }: { visit: Visit }) {
  const may = useMay();
  return may.manage ? <Answers visit={visit} /> : null;
}

function Answers({ visit }: { visit: Visit }) {
  const path = { id: visit.id };
  const { data: proposals } = query.useQuery('get', '/api/visits/{id}/proposals', { params: { path } });
  const [isAsking, setAsking] = useState(false);
  const isPlanned = visit.state === 'planned';
  if (proposals === undefined || (proposals.length === 0 && !isPlanned)) return null;
  return (
    <section className="block">
      <h2>{said.section}</h2>
      {proposals.length === 0 ? (
        <p className="aside">{said.none}</p>
      ) : (
        <ul className="plain">
          {proposals.map((proposal) => (
            <li key={proposal.id}>
              <Asked proposal={proposal} timeZone={visit.timeZone} />
            </li>
          ))}
        </ul>
      )}
      {isPlanned && (
        <div className="row no-print">
          <button type="button" onClick={() => setAsking(true)}>
            {proposals.length === 0 ? said.propose : said.proposeAgain}
          </button>
        </div>
      )}
      {isAsking && (
        <SayDialog
          title={said.proposeAsk(weekday(visit.onDay), visit.startTime)}
          button={said.sendProposal}
          send={() => api.POST('/api/visits/{id}/proposals', { params: { path }, body: { note: visit.noteToClient } })}
          onClose={() => setAsking(false)}
        >
          <p>{said.proposeNote}</p>
          {visit.noteToClient !== '' && <p className="text">{visit.noteToClient}</p>}
        </SayDialog>
      )}
    </section>
  );
}

function Asked({ proposal, timeZone }: { proposal: Proposal; timeZone: string }) {
  const { onDay, startTime, proposedAt, proposedBy, answer, reason, wishedDays, answeredAt, answeredBy, closedAt } = proposal;
  const [by, at] = [answeredBy ?? '', answeredAt === null ? '' : moment(answeredAt, timeZone)];
  return (
    <>
      <strong>
        {weekday(onDay)}, {startTime}
      </strong>{' '}
      {answer === null && closedAt === null && said.waiting}
      {answer === 'confirmed' && said.suits(by, at)}
      {answer === 'declined' && said.suitsNot(by, at, reason)} {wishedDays.length > 0 && said.wished(wishedDays.map(weekday).join(', '))}
      <small>
        {said.asked(moment(proposedAt, timeZone), proposedBy)}
        {closedAt !== null && `. ${said.closed}`}
      </small>
    </>
  );
}
