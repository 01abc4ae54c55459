import { Injectable } from '@nestjs/common';
import { type Caller, Database, NotFound, type Reader, toPage, viewOf } from '../app/index.js';
import { visitSpan } from './core/visit-span.js';
import { JudgeVisit } from './judge-visit.js';
import { ConsequenceView, VisitChangeView, VisitDetailView, VisitJobView, VisitPersonView, VisitsPageView, VisitView } from './visit-views.dto.js';
import type { VisitsQuery } from './visits.dto.js';
import { changesOf, findVisit, type VisitWithAll, visitsPage } from './visits.repository.js';

/** Visits as the caller may see them: a client, those that they were promised and what came of them. */
@Injectable()
export class VisitList {
  constructor(
    private readonly database: Database,
    private readonly judge: JudgeVisit,
  ) {}

  async page(caller: Caller, query: VisitsQuery): Promise<VisitsPageView> {
    const rows = await this.database.readFor(caller, (reader) => visitsPage(reader, caller, query));
    const page = toPage(
      rows,
      query.limit,
      (row) => viewOf(VisitView, fieldsOf(row)),
      ({ onDay, startTime, id }) => [onDay, startTime, id],
    );
    return viewOf(VisitsPageView, page);
  }

  read(caller: Caller, id: string): Promise<VisitDetailView> {
    return this.database.readFor(caller, (reader) => this.within(reader, caller, id));
  }

  async within(reader: Reader, caller: Caller, id: string): Promise<VisitDetailView> {
    const visit = await findVisit(reader, caller, id);
    if (visit === null) throw new NotFound('visit', id);
    const changes = await changesOf(reader, id);
    const isToCome = visit.state === 'planned' || visit.state === 'promised';
    const judged = caller.clientId === null && isToCome ? await this.judge.judge(reader, toJudge(visit), null) : { consequences: [] };
    return viewOf(VisitDetailView, {
      ...fieldsOf(visit),
      consequences: judged.consequences.map((consequence) => viewOf(ConsequenceView, consequence)),
      changes: changes.map(({ at, by, what, from, to, note }) => viewOf(VisitChangeView, { at, by, what, from, to, note })),
    });
  }
}

export const toJudge = ({ id, siteId, onDay, startTime, timeZone, minutes, people }: VisitWithAll) => ({
  id,
  siteId,
  onDay,
  startTime,
  timeZone,
  minutes,
  personIds: people.map(({ personId }) => personId),
});

function fieldsOf(visit: VisitWithAll) {
  const { id, no, clientId, clientName, siteId, siteName, timeZone, accessHours, onDay, startTime, minutes, breakMinutes } = visit;
  const { state, note, noteToClient, promisedAt, finishedAt, version } = visit;
  const { fromMs, toMs } = visitSpan(visit);
  return {
    id,
    no,
    clientId,
    clientName,
    siteId,
    siteName,
    timeZone,
    accessHours,
    onDay,
    startTime,
    startsAt: new Date(fromMs),
    endsAt: new Date(toMs),
    minutes,
    breakMinutes,
    state,
    note,
    noteToClient,
    promisedAt,
    finishedAt,
    people: visit.people.map(({ personId, name }) => viewOf(VisitPersonView, { personId, name })),
    jobs: visit.jobs.map((job) =>
      viewOf(VisitJobView, {
        id: job.id,
        no: job.no,
        title: job.title,
        kind: job.kind,
        state: job.state,
        skidId: job.skidId,
        skidName: job.skidName,
        latestOn: job.latestOn,
      }),
    ),
    version,
  };
}
