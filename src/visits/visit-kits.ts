import { Injectable } from '@nestjs/common';
import { Database, NotFound, type Reader, viewOf } from '../app/index.js';
import { SheetsOfJobs, type SheetView } from '../jobs/index.js';
import { type StockedPlace, StockOfPeople } from '../store/index.js';
import { TaskSheetReader } from '../upkeep/index.js';
import { type KitStock, kitOf } from './core/kit.js';
import { spareInVans } from './core/kit-vans.js';
import { KeepApartView, KitCautionView, KitChemicalView, KitHandOverView, KitItemView, KitStoreView, KitView } from './kit.dto.js';
import { sheetVersionsOf } from './planning.repository.js';
import { findVisit, type VisitWithAll } from './visits.repository.js';

/** What to take along. */
@Injectable()
export class VisitKits {
  constructor(
    private readonly database: Database,
    private readonly taskSheets: TaskSheetReader,
    private readonly stock: StockOfPeople,
    private readonly sheets: SheetsOfJobs,
  ) {}

  async ofVisit(id: string): Promise<KitView> {
    const reader = this.database.prisma;
    const visit = await findVisit(reader, { clientId: null }, id);
    if (visit === null) throw new NotFound('visit', id);
    const places = await this.stock.read(
      reader,
      visit.people.map(({ personId }) => personId),
    );
    const sheets = await this.sheets.ofJobs(reader, openJobsOf(visit));
    return (await this.of(reader, [visit], places, sheets)).get(id) ?? toView(kitOf([], [], []), [], []);
  }

  /** The kit of each visit, with as many statements for all as for one. */
  async of(reader: Reader, visits: readonly VisitWithAll[], places: readonly StockedPlace[], sheets: readonly SheetView[]): Promise<Map<string, KitView>> {
    const tasks = await sheetVersionsOf(
      reader,
      visits.map(({ id }) => id),
    );
    const versions = await this.taskSheets.versions(
      reader,
      tasks.flatMap(({ sheetVersionId }) => (sheetVersionId === null ? [] : [sheetVersionId])),
    );
    const itemIds = new Set(versions.flatMap(({ parts }) => parts.map(({ itemId }) => itemId)));
    const vans = await this.stock.inVans(reader, [...itemIds]);
    const byId = new Map(versions.map((version) => [version.id, version]));
    return new Map(
      visits.map((visit) => {
        const own = tasks.filter(({ visitId }) => visitId === visit.id);
        const kit = kitOf(
          own.flatMap(({ sheetVersionId }) => byId.get(sheetVersionId ?? '') ?? []),
          stockFor(visit, places),
          spareInVans(vans, visit),
        );
        const cautions = sheets.filter(({ jobId }) => visit.jobs.some(({ id }) => id === jobId)).flatMap((sheet) => sheet.cautions);
        const withoutSheet = own.filter(({ sheetVersionId }) => sheetVersionId === null).map(({ task }) => task);
        return [visit.id, toView(kit, cautions, [...new Set(withoutSheet)])];
      }),
    );
  }
}

/** Jobs of a visit that are still to be done. */
export const openJobsOf = ({ jobs }: VisitWithAll) => jobs.filter(({ state }) => state !== 'finished' && state !== 'dropped').map(({ id }) => id);

/** Of vans, those of the people who go. */
export function stockFor({ people }: VisitWithAll, places: readonly StockedPlace[]): KitStock[] {
  const theirs = places.filter(({ kind, personId }) => kind === 'store' || people.some((person) => person.personId === personId));
  return theirs.flatMap(({ id, name, kind, stock }) => stock.map(({ itemId, onHand }) => ({ itemId, onHand, placeId: id, placeName: name, kind })));
}

function toView(kit: ReturnType<typeof kitOf>, cautions: readonly { about: string; text: string }[], withoutSheet: string[]): KitView {
  const once = new Map(cautions.map(({ about, text }) => [`${about} ${text}`, { about, text }]));
  return viewOf(KitView, {
    items: kit.items.map((item) =>
      viewOf(KitItemView, {
        ...item,
        stores: item.stores.map((store) => viewOf(KitStoreView, store)),
        otherVans: item.otherVans.map((van) => viewOf(KitHandOverView, van)),
      }),
    ),
    chemicals: kit.chemicals.map((chemical) => viewOf(KitChemicalView, chemical)),
    keepApart: kit.keepApart.map(({ chemicals, happens }) => viewOf(KeepApartView, { chemicals: [...chemicals], happens })),
    tools: [...kit.tools],
    instruments: [...kit.instruments],
    skills: [...kit.skills],
    certificates: [...kit.certificates],
    crew: kit.crew,
    waterOffMinutes: kit.waterOffMinutes,
    cautions: [...once.values()].map((caution) => viewOf(KitCautionView, caution)),
    withoutSheet,
  });
}
