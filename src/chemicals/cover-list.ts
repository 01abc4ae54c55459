import { Injectable } from '@nestjs/common';
import { type Caller, Clock, readCursor, toPage, viewOf } from '../app/index.js';
import { chemicalClass } from '../shared/incompatibility.js';
import { standingOf } from '../upkeep/index.js';
import { ReminderView, TankCoverPageView, type TankCoverQuery, TankCoverView } from './chemicals.dto.js';
import { ChemicalsRepository, type CoverRow } from './chemicals.repository.js';
import { cautionsFor } from './core/cautions.js';
import { daysToShare } from './core/hypochlorite-strength.js';
import { type Reminder, reminderOf } from './core/reminder.js';
import { WEAK_SHARE } from './cover-of-tank.js';
import { AnnouncementView } from './deliveries/deliveries.dto.js';
import { USUAL_STORAGE_C } from './tank-record.js';

const MOST_ROWS = 20_000;

/** Which chemical runs out when. */
@Injectable()
export class CoverList {
  constructor(
    private readonly repository: ChemicalsRepository,
    private readonly clock: Clock,
  ) {}

  /** Everything that a query finds, for a table */
  async all(caller: Caller, query: Omit<TankCoverQuery, 'limit' | 'cursor'>): Promise<TankCoverView[]> {
    const rows = await this.repository.page(caller, { ...filterOf(query), limit: MOST_ROWS, offset: 0, now: this.clock.now() });
    return rows.slice(0, MOST_ROWS).map(toView);
  }

  async page(caller: Caller, query: TankCoverQuery): Promise<TankCoverPageView> {
    const offset = Number(readCursor(query.cursor, 1)?.[0] ?? 0);
    const { limit } = query;
    const rows = await this.repository.page(caller, { ...filterOf(query), limit, offset, now: this.clock.now() });
    const page = toPage(rows, limit, toView, () => [offset + limit]);
    return viewOf(TankCoverPageView, { ...page, total: rows[0]?.total ?? 0 });
  }
}

const filterOf = ({ tankId, skidId, clientId, siteId, suppliedBy, find }: Omit<TankCoverQuery, 'limit' | 'cursor'>) => ({
  tankId,
  skidId,
  clientId,
  siteId,
  suppliedBy,
  find,
});

function toView(row: CoverRow): TankCoverView {
  const { tankId, tankName, chemical, skidId, skidName, siteId, siteName, clientName, timeZone, capacityL, heelL, lastDipAt } = row;
  const { volumeL, strengthGL, dailyUseL, earlyDays, likelyDays, lateDays, runOutOn, expectedUseL, observedUseL } = row;
  const { suppliedBy, fedFrom, fedFromId, shape, heightM, usualGL, expiresOn, driftLDay, awaited } = row;
  const reminder = reminderFor(row);
  return viewOf(TankCoverView, {
    tankId,
    tankName,
    chemical,
    skidId,
    skidName,
    siteId,
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
    suppliedBy,
    fedFrom,
    fedFromId,
    shape,
    heightM,
    usualGL,
    expiresOn,
    balanceState: row.balanceState ?? 'too little data',
    balanceWords: row.balanceWords ?? '',
    driftLDay,
    reminder: reminder && viewOf(ReminderView, reminder),
    awaited: awaited && viewOf(AnnouncementView, { ...awaited, announcedAt: new Date(awaited.announcedAt) }),
    reason: row.reason ?? 'Not reckoned yet: enter a dip.',
    cautions: cautionsFor(chemical, row.keptWithIt),
  });
}

/** Only of a tank that the client fills, and from storage: a day tank is filled from its neighbour. */
function reminderFor(row: CoverRow): Reminder | null {
  const { suppliedBy, fedFrom, shortOn, volumeL, dailyUseL, chemical, capacityL, heelL, today, usualGL, storageC, awaited } = row;
  if (suppliedBy !== 'client' || fedFrom !== null || shortOn === null || volumeL === null || dailyUseL === null) return null;
  const loses = chemicalClass(chemical) === 'hypochlorite' && usualGL !== null;
  const keepsDays = loses ? daysToShare(usualGL, WEAK_SHARE, storageC ?? USUAL_STORAGE_C) : null;
  return reminderOf({ chemical, capacityL, heelL, volumeL, dailyUseL, shortOn, today, keepsDays, awaited });
}
