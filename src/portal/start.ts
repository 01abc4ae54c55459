import { Injectable } from '@nestjs/common';
import { type Caller, Clock, NotFound, viewOf } from '../app/index.js';
import { StartRequestView, StartSiteView, StartSkidView, StartView, StartVisitView, StartVisitWorkView, StartWaterView } from './start.dto.js';
import { StartRepository, type StartRequest, type StartSite, type StartSkid, type StartVisit } from './start.repository.js';

/** What a person of a client sees first: their sites, how the skids there are, who comes next and what is asked for. */
@Injectable()
export class Start {
  constructor(
    private readonly repository: StartRepository,
    private readonly clock: Clock,
  ) {}

  async read(caller: Caller): Promise<StartView> {
    const { client, sites, skids, visits, requests } = await this.repository.read(caller, this.clock.now());
    if (client === null) throw new NotFound('client', caller.clientId ?? '');
    const at = <Row extends { readonly siteId: string }>(rows: readonly Row[], { id }: StartSite): Row[] => rows.filter(({ siteId }) => siteId === id);
    return viewOf(StartView, {
      clientId: client.id,
      clientName: client.name,
      sites: sites.map((site) => toSite(site, at(skids, site), at(visits, site)[0] ?? null, at(requests, site))),
    });
  }
}

function toSite({ id, name, timeZone }: StartSite, skids: readonly StartSkid[], visit: StartVisit | null, requests: readonly StartRequest[]): StartSiteView {
  return viewOf(StartSiteView, {
    siteId: id,
    name,
    timeZone,
    skids: skids.map(toSkid),
    nextVisit: visit === null ? null : toVisit(visit),
    requests: requests.map(({ jobId, no, kind, title, skidName, state, stateNote, visitOn, createdAt, createdBy }) =>
      viewOf(StartRequestView, { jobId, no, kind, title, skidName, state, stateNote, visitOn, createdAt, createdBy }),
    ),
    openRequests: requests[0]?.total ?? 0,
  });
}

function toSkid({ skidId, name, kind, serviceState, standing, task, bestOn, silent, lastReadingAt, breakdown, ...water }: StartSkid): StartSkidView {
  const { m3, waterFrom: from, waterTo: to, days, estimatedDays, byHandDays } = water;
  return viewOf(StartSkidView, {
    skidId,
    name,
    kind,
    serviceState,
    standing,
    nextTask: task,
    nextOn: bestOn,
    silent,
    lastReadingAt,
    breakdown,
    water: kind === 'shared' ? null : viewOf(StartWaterView, { m3, from, to, days, estimatedDays, byHandDays }),
  });
}

function toVisit({ id, onDay, startTime, state, noteToClient, people, work }: StartVisit): StartVisitView {
  return viewOf(StartVisitView, {
    id,
    onDay,
    startTime,
    state,
    noteToClient,
    people: [...people],
    work: work.map(({ skidName, title }) => viewOf(StartVisitWorkView, { skidName, title })),
  });
}
