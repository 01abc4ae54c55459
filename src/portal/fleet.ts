import { Injectable } from '@nestjs/common';
import { type Caller, Clock, NotFound, readCursor, toPage, viewOf } from '../app/index.js';
import { skidReason } from '../upkeep/core/skid-reason.js';
import { FleetPageView, type FleetQuery, FleetSkidView, SkidOverviewView, StandingCountView } from './portal.dto.js';
import { type FleetRow, PortalRepository } from './portal.repository.js';

/** The fleet as a whole: which skid needs what next. */
@Injectable()
export class Fleet {
  constructor(
    private readonly repository: PortalRepository,
    private readonly clock: Clock,
  ) {}

  async page(caller: Caller, query: FleetQuery): Promise<FleetPageView> {
    const offset = Number(readCursor(query.cursor, 1)?.[0] ?? 0);
    const { limit, standing, clientId, find } = query;
    const { rows, counts } = await this.repository.fleet(caller, { limit, offset, standing, clientId, find, now: this.clock.now() });
    const page = toPage(rows, limit, toSkidView, () => [offset + limit]);
    return viewOf(FleetPageView, {
      ...page,
      total: rows[0]?.total ?? 0,
      counts: counts.map((count) => viewOf(StandingCountView, { standing: count.standing, skids: count.skids })),
    });
  }

  async overview(caller: Caller, skidId: string): Promise<SkidOverviewView> {
    const filter = { limit: 1, offset: 0, standing: undefined, clientId: undefined, find: undefined, skidId, now: this.clock.now() };
    const row = (await this.repository.fleet(caller, filter)).rows[0];
    if (row === undefined) throw new NotFound('skid', skidId);
    const { siteName, clientName, kind, timeZone, serviceState, water, standing, lastReadingAt } = row;
    return viewOf(SkidOverviewView, {
      skidId: row.skidId,
      name: row.name,
      siteName,
      clientName,
      kind,
      timeZone,
      serviceState,
      water,
      standing,
      reason: skidReason(row),
      nextTask: row.task,
      nextOn: row.bestOn,
      lastReadingAt,
      filtrationHours30Days: row.hours30Days,
      dailyFiltrateM3: row.dailyLoadM3,
    });
  }
}

function toSkidView(row: FleetRow): FleetSkidView {
  const { skidId, name, siteName, clientName, kind, serviceState, standing, lastReadingAt, timeZone } = row;
  return viewOf(FleetSkidView, {
    skidId,
    name,
    siteName,
    clientName,
    kind,
    serviceState,
    standing,
    nextTask: row.task,
    nextOn: row.bestOn,
    reason: skidReason(row),
    lastReadingAt,
    timeZone,
  });
}
