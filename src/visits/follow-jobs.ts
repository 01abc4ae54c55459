import { Injectable, type OnModuleInit } from '@nestjs/common';
import { Clock, type Reader } from '../app/index.js';
import { JobHooks } from '../jobs/index.js';
import { Reservations } from '../store/index.js';
import { localTime } from './core/visit-span.js';
import { visitState } from './core/visit-state.js';
import { ReserveKit } from './reserve-kit.js';
import { addChanges, editVisit, jobStatesOf, lockVisit } from './visit-writes.repository.js';

/** Keeps the state of a visit in step with what becomes of its jobs. */
@Injectable()
export class FollowJobs implements OnModuleInit {
  constructor(
    private readonly hooks: JobHooks,
    private readonly kit: ReserveKit,
    private readonly reservations: Reservations,
    private readonly clock: Clock,
  ) {}

  onModuleInit(): void {
    const follow = async (tx: Reader, { id, visitId }: { id: string; visitId: string | null }) => {
      await this.reservations.releaseOverJob(tx, id);
      if (visitId !== null) await this.follow(tx, visitId);
    };
    this.hooks.onFinished(follow);
    this.hooks.onChanged(follow);
  }

  private async follow(tx: Reader, visitId: string): Promise<void> {
    const visit = await lockVisit(tx, visitId);
    if (visit === null) return;
    const at = this.clock.now();
    // A job that was begun in an earlier visit does not begin the one that it is planned into.
    const isToCome = visit.onDay > localTime(at.getTime(), visit.timeZone).day;
    const jobs = (await jobStatesOf(tx, visitId)).map((state) => (isToCome && state === 'under way' ? 'open' : state));
    const state = visitState(visit.state, jobs);
    if (state === visit.state) return;
    await editVisit(tx, visitId, { state, finishedAt: state === 'finished' ? at : null });
    await addChanges(tx, visit, { name: 'Skidkeep', at }, [{ what: 'state', from: visit.state, to: state, toClient: true }]);
    await this.kit.follow(tx, visitId, 'Skidkeep');
  }
}
