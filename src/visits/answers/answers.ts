import { Injectable } from '@nestjs/common';
import { type Caller, Clock, Conflict, Database, faultIn, NotFound, type Reader, viewOf } from '../../app/index.js';
import { localTime } from '../core/visit-span.js';
import { addChanges, lockVisit } from '../visit-writes.repository.js';
import { type DeclineDto, ProposalView, ProposalWorkView } from './answers.dto.js';
import { addProposal, findProposal, openProposals, type ProposalRow, proposalsOf, writeAnswer } from './answers.repository.js';

/** Days that are proposed to clients, and what they answer. Neither promises the visit nor shifts it: that is for a manager to do. */
@Injectable()
export class Answers {
  constructor(
    private readonly database: Database,
    private readonly clock: Clock,
  ) {}

  /** What is asked of the caller, or for a manager of all clients. */
  async open(caller: Caller): Promise<ProposalView[]> {
    const rows = await this.database.readFor(caller, (reader) => openProposals(reader, this.clock.now(), caller.siteId));
    return rows.map(view);
  }

  async ofVisit(visitId: string): Promise<ProposalView[]> {
    return (await proposalsOf(this.database.prisma, visitId)).map(view);
  }

  propose(caller: Caller, visitId: string, note: string): Promise<ProposalView> {
    return this.database.write(async (tx) => {
      const visit = await lockVisit(tx, visitId);
      if (visit === null) throw new NotFound('visit', visitId);
      const { no, state, clientId, siteId, onDay, startTime, minutes } = visit;
      const now = this.clock.now();
      if (state !== 'planned') throw new Conflict(`Visit ${no} is ${state}: only the day of a planned one is proposed`);
      if (onDay < localTime(now.getTime(), visit.timeZone).day) throw new Conflict(`${onDay} has passed: shift the visit to a day to come first`);
      const about = { visitId, clientId, siteId, onDay, startTime, minutes, note, proposedAt: now, proposedBy: caller.name };
      const id = await addProposal(tx, about);
      await addChanges(tx, visit, { name: caller.name, at: now }, [{ what: 'answer', to: `proposed ${onDay} ${startTime}`, note }]);
      return view(await found(tx, id));
    });
  }

  confirm(caller: Caller, id: string): Promise<ProposalView> {
    return this.answer(caller, id, () => ({ answer: 'confirmed', reason: '', wishedDays: [] }));
  }

  decline(caller: Caller, id: string, { reason, wishedDays }: DeclineDto): Promise<ProposalView> {
    return this.answer(caller, id, (today) => {
      for (const [at, day] of wishedDays.entries()) if (day < today) throw faultIn(`wishedDays/${at}`, `${day} has passed: name a day to come`);
      return { answer: 'declined', reason, wishedDays };
    });
  }

  /** What was answered may be answered otherwise as long as it is asked. */
  private async answer(
    caller: Caller,
    id: string,
    of: (today: string) => { answer: 'confirmed' | 'declined'; reason: string; wishedDays: readonly string[] },
  ): Promise<ProposalView> {
    const seen = await this.database.readFor(caller, (reader) => findProposal(reader, id));
    if (seen === null || (caller.siteId !== null && seen.siteId !== caller.siteId)) throw new NotFound('proposed visit', id);
    return this.database.write(async (tx) => {
      const visit = await lockVisit(tx, seen.visitId);
      const proposal = await found(tx, id);
      const now = this.clock.now();
      const today = localTime(now.getTime(), proposal.timeZone).day;
      if (visit === null || proposal.closedAt !== null) throw new Conflict('This day is no longer asked: the department has changed the visit');
      if (proposal.onDay < today) throw new Conflict(`${proposal.onDay} has passed`);
      const answer = of(today);
      if (answer.answer === 'confirmed' && proposal.answer === 'confirmed') return view(proposal);
      await writeAnswer(tx, id, { ...answer, answeredAt: now, answeredBy: caller.name });
      const days = answer.wishedDays.length === 0 ? '' : ` Would suit: ${answer.wishedDays.join(', ')}`;
      const to = `${answer.answer} ${proposal.onDay} ${proposal.startTime}`;
      await addChanges(tx, visit, { name: caller.name, at: now }, [{ what: 'answer', to, note: `${answer.reason}${days}` }]);
      return view(await found(tx, id));
    });
  }
}

async function found(tx: Reader, id: string): Promise<ProposalRow> {
  const row = await findProposal(tx, id);
  if (row === null) throw new NotFound('proposed visit', id);
  return row;
}

function view({ clientId: _client, timeZone: _zone, work, wishedDays, ...row }: ProposalRow): ProposalView {
  return viewOf(ProposalView, {
    ...row,
    wishedDays: [...wishedDays],
    work: work.map(({ skidName, title }) => viewOf(ProposalWorkView, { skidName, title })),
  });
}
