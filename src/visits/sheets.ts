import { Injectable } from '@nestjs/common';
import { type Caller, Clock, Database, viewOf } from '../app/index.js';
import { SheetsOfJobs, type SheetView } from '../jobs/index.js';
import { dayPlus } from '../shared/day.js';
import { type StockedPlace, StockOfPeople } from '../store/index.js';
import { localTime } from './core/visit-span.js';
import type { KitView } from './kit.dto.js';
import { PlaceSheetView, PlaceStockView, SheetsView, VisitSheetsView } from './sheets.dto.js';
import { openJobsOf, VisitKits } from './visit-kits.js';
import { VisitPersonView } from './visit-views.dto.js';
import { openVisits, type VisitWithAll } from './visits.repository.js';

/** A sheet that was not sent in time is still fetched for so long. */
const DAYS_BACK = 7;

/** Job sheets of the coming days, with everything that is needed to fill them in without signal. */
@Injectable()
export class Sheets {
  constructor(
    private readonly database: Database,
    private readonly clock: Clock,
    private readonly sheets: SheetsOfJobs,
    private readonly stock: StockOfPeople,
    private readonly kits: VisitKits,
  ) {}

  /** A technician gets their own visits, a manager all; in as many statements for many visits as for one. */
  async read(caller: Caller, days: number): Promise<SheetsView> {
    const reader = this.database.prisma;
    const now = this.clock.now();
    const ownOnly = caller.role === 'manager' ? null : caller.id;
    const visits = await this.within(now, days, (from, to) => openVisits(reader, from, to, ownOnly));
    const sheets = await this.sheets.ofJobs(reader, visits.flatMap(openJobsOf));
    const personIds = new Set([caller.id, ...visits.flatMap(({ people }) => people.map(({ personId }) => personId))]);
    const places = await this.stock.read(reader, [...personIds]);
    const kits = await this.kits.of(reader, visits, places, sheets);
    const shown = places.filter(({ kind, personId }) => kind === 'store' || ownOnly === null || personId === ownOnly);
    return viewOf(SheetsView, {
      madeAt: now,
      visits: visits.flatMap((visit) => {
        const kit = kits.get(visit.id);
        const own = sheets.filter(({ jobId }) => visit.jobs.some(({ id }) => id === jobId));
        return kit === undefined ? [] : [toView(visit, kit, own)];
      }),
      places: shown.map(placeView),
    });
  }

  /** The days are those of each site: it is today there while it is yesterday or tomorrow elsewhere. */
  private async within(now: Date, days: number, find: (from: string, to: string) => Promise<VisitWithAll[]>): Promise<VisitWithAll[]> {
    const today = localTime(now.getTime(), 'UTC').day;
    const near = await find(dayPlus(today, -DAYS_BACK - 1), dayPlus(today, days + 1));
    return near.filter(({ onDay, timeZone }) => {
      const there = localTime(now.getTime(), timeZone).day;
      return onDay >= dayPlus(there, -DAYS_BACK) && onDay <= dayPlus(there, days);
    });
  }
}

const placeView = ({ id, name, kind, stock }: StockedPlace) =>
  viewOf(PlaceSheetView, { id, name, kind, stock: stock.map((line) => viewOf(PlaceStockView, line)) });

function toView(visit: VisitWithAll, kit: KitView, jobs: SheetView[]): VisitSheetsView {
  const { id, no, onDay, startTime, minutes, state, siteId, siteName, clientName, timeZone, accessHours, note, people } = visit;
  return viewOf(VisitSheetsView, {
    id,
    no,
    onDay,
    startTime,
    minutes,
    state,
    siteId,
    siteName,
    clientName,
    timeZone,
    accessHours,
    note: note ?? '',
    people: people.map(({ personId, name }) => viewOf(VisitPersonView, { personId, name })),
    kit,
    jobs,
  });
}
