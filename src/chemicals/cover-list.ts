import { Injectable } from '@nestjs/common';
import { type Caller, Clock, readCursor, toPage, viewOf } from '../app/index.js';
import { standingOf } from '../upkeep/index.js';
import { TankCoverPageView, type TankCoverQuery, TankCoverView } from './chemicals.dto.js';
import { ChemicalsRepository, type CoverRow } from './chemicals.repository.js';
import { cautionsFor } from './core/cautions.js';

/** Which chemical runs out when. */
@Injectable()
export class CoverList {
  constructor(
    private readonly repository: ChemicalsRepository,
    private readonly clock: Clock,
  ) {}

  async page(caller: Caller, query: TankCoverQuery): Promise<TankCoverPageView> {
    const offset = Number(readCursor(query.cursor, 1)?.[0] ?? 0);
    const { limit, skidId, clientId, find } = query;
    const rows = await this.repository.page(caller, { limit, offset, skidId, clientId, find, now: this.clock.now() });
    const page = toPage(rows, limit, toView, () => [offset + limit]);
    return viewOf(TankCoverPageView, { ...page, total: rows[0]?.total ?? 0 });
  }
}

function toView(row: CoverRow): TankCoverView {
  const { tankId, tankName, chemical, skidId, skidName, siteName, clientName, timeZone, capacityL, heelL, lastDipAt } = row;
  const { volumeL, strengthGL, dailyUseL, earlyDays, likelyDays, lateDays, runOutOn, expectedUseL, observedUseL } = row;
  return viewOf(TankCoverView, {
    tankId,
    tankName,
    chemical,
    skidId,
    skidName,
    siteName,
    clientName,
    timeZone,
    standing: standingOf({ dueOn: row.shortOn, latestOn: runOutOn, today: row.today }),
    capacityL,
    heelL,
    lastDipAt,
    volumeL,
    strengthGL,
    dailyUseL,
    earlyDays,
    likelyDays,
    lateDays,
    runOutOn,
    expectedUseL,
    observedUseL,
    reason: row.reason ?? 'Not reckoned yet: enter a dip.',
    cautions: cautionsFor(chemical, row.keptWithIt),
  });
}
