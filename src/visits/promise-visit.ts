import { Injectable } from '@nestjs/common';
import { type Caller, Clock, Conflict, Database, NotFound } from '../app/index.js';
import { localTime } from './core/visit-span.js';
import { ReserveKit } from './reserve-kit.js';
import { VisitList } from './visit-list.js';
import type { VisitDetailView } from './visit-views.dto.js';
import { addChanges, editVisit, holdJobs, lockVisit, putJobs } from './visit-writes.repository.js';

/** What the client is told of a visit: that somebody comes, and that nobody does. */
@Injectable()
export class PromiseVisit {
  constructor(
    private readonly database: Database,
    private readonly list: VisitList,
    private readonly kit: ReserveKit,
    private readonly clock: Clock,
  ) {}

  promise(caller: Caller, id: string): Promise<VisitDetailView> {
    return this.database.write(async (tx) => {
      const visit = await lockVisit(tx, id);
      if (visit === null) throw new NotFound('visit', id);
      const at = this.clock.now();
      if (visit.state === 'promised') return this.list.within(tx, caller, id);
      if (visit.state !== 'planned') throw new Conflict(`Visit ${visit.no} is ${visit.state}: only a planned one is promised`);
      if (visit.onDay < localTime(at.getTime(), visit.timeZone).day) throw new Conflict(`${visit.onDay} has passed: shift the visit to a day to come first`);
      await editVisit(tx, id, { state: 'promised', promisedAt: at, promisedBy: caller.name });
      const to = `${visit.onDay} ${visit.startTime}`;
      await addChanges(tx, visit, { name: caller.name, at }, [{ what: 'state', from: 'planned', to: 'promised', note: to, toClient: true }]);
      await this.kit.follow(tx, id, caller.name);
      return this.list.within(tx, caller, id);
    });
  }

  /** Nobody goes: its jobs wait for another visit. */
  callOff(caller: Caller, id: string, reason: string): Promise<VisitDetailView> {
    return this.database.write(async (tx) => {
      await holdJobs(tx, [], id);
      const visit = await lockVisit(tx, id);
      if (visit === null) throw new NotFound('visit', id);
      const { state, no } = visit;
      if (state === 'under way') throw new Conflict(`Visit ${no} is under way. Take out the jobs that are not done in it, and it is finished`);
      if (state !== 'planned' && state !== 'promised') throw new Conflict(`Visit ${no} is ${state} already`);
      const at = this.clock.now();
      const jobs = visit.jobs.filter((job) => job.state !== 'dropped').map((job) => ({ id: job.id, clientId: visit.clientId }));
      await putJobs(tx, jobs, null, { caller, at }, { from: `visit ${no}`, to: '', note: reason });
      await editVisit(tx, id, { state: 'called off' });
      const change = { what: 'state' as const, from: state, to: 'called off', note: reason, toClient: state === 'promised' };
      await addChanges(tx, visit, { name: caller.name, at }, [change]);
      await this.kit.follow(tx, id, caller.name);
      return this.list.within(tx, caller, id);
    });
  }
}
