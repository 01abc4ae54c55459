import { Injectable } from '@nestjs/common';
import { type Caller, Clock, Conflict, Database, faultIn, type KeyedRequest, KeyedWork, NotFound, type Reader } from '../app/index.js';
import { MINUTES_ASSUMED } from './core/visit-minutes.js';
import { visitState } from './core/visit-state.js';
import { JudgeVisit } from './judge-visit.js';
import { openSiteOf } from './planning.repository.js';
import { ReserveKit } from './reserve-kit.js';
import { VisitList } from './visit-list.js';
import { peopleToGo } from './visit-people.js';
import type { VisitDetailView } from './visit-views.dto.js';
import { addChanges, createVisit, editVisit, holdJobs, jobStatesOf, lockVisit, putJobs, setPeople } from './visit-writes.repository.js';
import type { VisitDto, VisitJobsDto } from './visits.dto.js';
import type { VisitWithAll } from './visits.repository.js';
import { inWords, WorkOfVisit } from './work-of-visit.js';

/** Makes visits, and changes what work is in them. */
@Injectable()
export class PlanVisit {
  constructor(
    private readonly database: Database,
    private readonly keyed: KeyedWork,
    private readonly work: WorkOfVisit,
    private readonly judge: JudgeVisit,
    private readonly list: VisitList,
    private readonly kit: ReserveKit,
    private readonly clock: Clock,
  ) {}

  make(caller: Caller, key: KeyedRequest, input: VisitDto): Promise<VisitDetailView> {
    return this.keyed.run(key, async (tx) => this.list.within(tx, caller, await this.within(tx, caller, input)));
  }

  /**
   * Makes a visit in a transaction of the caller's; answers its id.
   *
   * @param breakOfPlan minutes of the break within it as a plan has it; left out: as the people who go have theirs
   */
  async within(tx: Reader, caller: Caller, input: VisitDto, breakOfPlan?: number): Promise<string> {
    const { siteId, onDay, startTime, personIds, note = '', noteToClient = '', minutes = null } = input;
    if (minutes === null && !namesWork(input)) throw faultIn('minutes', 'say how long it takes, or what is to be done (jobIds, dueIds)');
    const site = await openSiteOf(tx, siteId);
    if (site === null) throw faultIn('siteId', 'there is no such site, or it has ended');
    const people = await peopleToGo(tx, personIds);
    const { clientId, name: siteName } = site;
    const given = { minutes: minutes ?? MINUTES_ASSUMED, minutesGiven: minutes !== null };
    const { id, no } = await createVisit(tx, { clientId, siteId, onDay, startTime, ...given, note, noteToClient, createdBy: caller.name });
    await setPeople(tx, { id, clientId }, people);
    const put = await this.work.put(tx, caller, { id, no, siteId, siteName, onDay }, input);
    const reckoned = minutes === null ? await this.judge.minutesOf(tx, id, people.length) : null;
    const takes = reckoned ?? given.minutes;
    const breakMinutes = breakOfPlan ?? (await this.judge.breakIn(tx, { startTime, minutes: takes }, personIds));
    if (reckoned !== null || breakMinutes > 0) await editVisit(tx, id, { minutes: takes, breakMinutes });
    const names = people.map(({ name }) => name).join(', ');
    await addChanges(tx, { id, clientId }, this.by(caller), [{ what: 'made', to: `${onDay} ${startTime}, ${names}`, note: put }]);
    return id;
  }

  addJobs(caller: Caller, key: KeyedRequest, id: string, input: VisitJobsDto): Promise<VisitDetailView> {
    if (!namesWork(input)) throw faultIn('jobIds', 'say which jobs or dues');
    return this.keyed.run(key, async (tx) => {
      await holdJobs(tx, input.jobIds ?? []);
      const visit = await openVisit(tx, id);
      const put = await this.work.put(tx, caller, visit, input);
      await this.changed(tx, caller, visit, { what: 'jobs', to: put });
      return this.list.within(tx, caller, id);
    });
  }

  removeJob(caller: Caller, id: string, jobId: string): Promise<VisitDetailView> {
    return this.database.write(async (tx) => {
      await holdJobs(tx, [jobId]);
      const visit = await openVisit(tx, id);
      const job = visit.jobs.find((each) => each.id === jobId);
      if (job === undefined) throw new NotFound('job in this visit', jobId);
      if (job.state === 'finished') throw new Conflict(`${inWords(job)} was finished in this visit and stays on its record`);
      const change = { from: `visit ${visit.no}`, to: '', note: '' };
      await putJobs(tx, [{ id: jobId, clientId: visit.clientId }], null, { caller, at: this.clock.now() }, change);
      await this.changed(tx, caller, visit, { what: 'jobs', from: inWords(job) });
      return this.list.within(tx, caller, id);
    });
  }

  private by = ({ name }: Caller) => ({ name, at: this.clock.now() });

  /** How long it takes is reckoned anew before anybody goes; a visit that is under way may be over when nothing is left in it. */
  private async changed(tx: Reader, caller: Caller, visit: VisitWithAll, change: { what: 'jobs'; from?: string; to?: string }): Promise<void> {
    const { id, state, minutesGiven, people } = visit;
    const at = this.clock.now();
    if (state === 'under way') {
      const next = visitState(state, await jobStatesOf(tx, id));
      const end = next === 'finished' ? [{ what: 'state' as const, from: state, to: next, toClient: true }] : [];
      await editVisit(tx, id, next === 'finished' ? { state: next, finishedAt: at } : {});
      await addChanges(tx, visit, this.by(caller), [change, ...end]);
      return this.kit.follow(tx, id, caller.name);
    }
    const minutes = minutesGiven === true ? null : await this.judge.minutesOf(tx, id, people.length);
    const personIds = people.map(({ personId }) => personId);
    await editVisit(
      tx,
      id,
      minutes === null ? {} : { minutes, breakMinutes: await this.judge.breakIn(tx, { startTime: visit.startTime, minutes }, personIds) },
    );
    await addChanges(tx, visit, this.by(caller), [change]);
    return this.kit.follow(tx, id, caller.name);
  }
}

const namesWork = ({ jobIds = [], dueIds = [] }: VisitJobsDto) => jobIds.length + dueIds.length > 0;

/** A visit whose work can still change, locked. */
async function openVisit(tx: Reader, id: string): Promise<VisitWithAll> {
  const visit = await lockVisit(tx, id);
  if (visit === null) throw new NotFound('visit', id);
  if (visit.state === 'finished' || visit.state === 'called off') throw new Conflict(`Visit ${visit.no} is ${visit.state}: make another one`);
  return visit;
}
