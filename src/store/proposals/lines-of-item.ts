import { type Day, daysBetween } from '../../shared/day.js';
import type { CatalogueFit } from '../core/demand/catalogue/fit-catalogue.js';
import type { OutlookRecord } from '../core/demand/types.js';
import { type LeadTime, leadTimeOf } from '../core/orders/lead-time.js';
import { type LineComputed, reorderLine } from '../core/proposals/reorder-line.js';
import { type Offered, shareSurplus } from '../core/proposals/share-surplus.js';
import type { AskedService } from '../core/proposals/stock-levels.js';
import { type CauseOfNeed, sourcesOfPlaces } from '../demand/sources-of-places.js';
import type { StockPlace } from '../demand/stock-facts.repository.js';
import type { FactsOfStore, ItemFacts } from '../demand/store-facts.js';
import type { SettingRow } from './settings.repository.js';

/** Share of need that is served at once, where nobody asked for another. Common practice. */
const USUAL = { 'stops the skid': 0.98, 'hampers the skid': 0.95, 'can wait': 0.9 } as const;
/** From a store to a van or a place at a site: it goes with the next round. */
const DAYS_FROM_STORE = 2;
const REFILL_DAYS = 7;
const LEAD_FROM_STORE = Array.from({ length: DAYS_FROM_STORE + 1 }, (_, day) => (day === DAYS_FROM_STORE ? 1 : 0));
const NOBODY_SELLS_IT = leadTimeOf(null, []);
/** A part that stops a skid is kept though it has not been needed of late. */
const ALWAYS_KEPT = 'stops the skid';

export interface WayToBuy {
  readonly supplierId: string;
  readonly leadTime: LeadTime;
  readonly orderCost: number | null;
}

/** A line as it was computed, with what it was computed from. */
export interface LineOfPlace {
  readonly place: StockPlace;
  /** What buys, with the stock and use of the places that it supplies */
  readonly buys: boolean;
  readonly supplies: readonly StockPlace[];
  readonly computed: LineComputed;
  readonly causes: ReadonlyMap<string, CauseOfNeed>;
  readonly onHand: number;
  readonly reserved: number;
  readonly onOrder: number;
  readonly onTheWay: number;
  readonly service: AskedService;
  readonly reviewDays: number;
  readonly criticality: keyof typeof USUAL;
  readonly setting: SettingRow | null;
  readonly leadTime: LeadTime | null;
  readonly transfers: readonly Offered[];
}

export interface AskedOfItem {
  readonly facts: ItemFacts;
  readonly store: Pick<FactsOfStore, 'places' | 'suppliesSite'>;
  /** By place */
  readonly settings: ReadonlyMap<string, SettingRow>;
  readonly way: WayToBuy | null;
  readonly fit: CatalogueFit;
  readonly record: OutlookRecord;
  readonly today: Day;
}

/**
 * The lines of one item: one for each store that buys, with the stock and the use of vans and sites that it supplies, and one for each van or site that is filled from
 * its store. What lies too much in one store is offered to the others.
 */
export function linesOfItem(asked: AskedOfItem): LineOfPlace[] {
  const { places, suppliesSite } = asked.store;
  const main = places.find(({ kind }) => kind === 'store')?.id ?? null;
  const supplierOf = ({ id, kind, siteId }: StockPlace) => (kind === 'store' ? id : ((siteId === null ? main : suppliesSite(siteId)) ?? id));
  const groups = new Map<string, StockPlace[]>();
  for (const place of places) groups.set(supplierOf(place), [...(groups.get(supplierOf(place)) ?? []), place]);
  if (isNothing(asked)) return [];
  const buying = places
    .filter((place) => supplierOf(place) === place.id)
    .flatMap((place) => lineOf(asked, place, groups.get(place.id) ?? [], (siteId) => (suppliesSite(siteId) ?? place.id) === place.id) ?? []);
  const filled = places
    .filter((place) => supplierOf(place) !== place.id)
    .flatMap((place) => lineOf(asked, place, null, (siteId) => place.siteId === siteId && asked.settings.has(place.id)) ?? []);
  const offered = shareSurplus(buying.map(balanceOf));
  return [
    ...buying.map((line) => ({ ...line, transfers: offered.get(line.place.id) ?? [] })),
    ...filled.map((line) => ({
      ...line,
      transfers: fromStore(
        line,
        buying.find(({ place }) => place.id === supplierOf(line.place)),
        asked,
      ),
    })),
  ];
}

const isNothing = ({ facts: { stock, reservations, coming, use, planned, fitted, tanks }, settings }: AskedOfItem) =>
  settings.size + stock.length + reservations.length + coming.length + use.length + planned.length + fitted.length + tanks.length === 0;

function lineOf(
  { facts, settings, way, fit, record, today }: AskedOfItem,
  place: StockPlace,
  /** Those that it supplies, itself among them; null: it is filled from its store */
  group: readonly StockPlace[] | null,
  served: (siteId: string) => boolean,
): LineOfPlace | null {
  const counted = group ?? [place];
  const buys = group !== null;
  const ids = new Set(counted.map(({ id }) => id));
  const here = <T extends { readonly placeId: string }>(rows: readonly T[]) => rows.filter(({ placeId }) => ids.has(placeId));
  const [stock, reservations, coming, use] = [here(facts.stock), here(facts.reservations), here(facts.coming), here(facts.use)];
  const setting = settings.get(place.id) ?? null;
  const atPlace = setting === null ? stock.length + reservations.length + coming.length + use.length : 1;
  // Most places have nothing to do with most items: they are passed over before anything is reckoned.
  if (atPlace === 0 && !asksFor(facts, served)) return null;
  const { sources, causes, idleMonths } = sourcesOfPlaces(facts, (id) => ids.has(id), served, today);
  if (atPlace + sources.planned.length + sources.fitted.length === 0) return null;
  const criticality = setting?.criticality ?? facts.item.criticality;
  const reviewDays = setting?.reviewDays ?? (buys ? facts.item.reviewDays : REFILL_DAYS);
  const leadTime = buys ? (way?.leadTime ?? NOBODY_SELLS_IT) : null;
  const [onHand, reserved] = [total(stock), total(reservations)];
  const [onOrder, onTheWay] = [total(coming.filter(({ kind }) => kind === 'order')), total(coming.filter(({ kind }) => kind === 'transfer'))];
  const service = serviceOf(setting, criticality);
  const computed = reorderLine(
    {
      sources,
      leadTime: leadTime?.pmf ?? LEAD_FROM_STORE,
      onHand,
      reserved,
      coming: onOrder + onTheWay,
      lots: stock.flatMap(({ until, quantity }) => (until === null ? [] : [{ inDays: daysBetween(today, until), quantity }])),
      alwaysKept: setting?.service != null || setting?.asked != null || (buys && criticality === ALWAYS_KEPT),
      idleMonths,
      knownMonths: facts.months,
      service,
      reviewDays,
      minimum: Number(setting?.minimum ?? 0),
      maximum: setting?.maximum == null ? null : Number(setting.maximum),
      orderCost: buys ? (way?.orderCost ?? null) : 0,
      unitCost: facts.item.unitCost,
    },
    fit,
    record,
  );
  const supplies = counted.filter(({ id }) => id !== place.id);
  return { place, buys, supplies, computed, causes, onHand, reserved, onOrder, onTheWay, service, reviewDays, criticality, setting, leadTime, transfers: [] };
}

const asksFor = ({ planned, fitted, tanks }: ItemFacts, served: (siteId: string) => boolean) =>
  [planned, fitted, tanks].some((rows) => rows.some(({ siteId }) => served(siteId)));

const total = (rows: readonly { readonly quantity: number }[]) => rows.reduce((sum, { quantity }) => sum + quantity, 0);

function serviceOf(setting: SettingRow | null, criticality: keyof typeof USUAL): AskedService {
  if (setting?.service === 'cost' && setting.shortCost !== null) return { kind: 'cost', shortCost: Number(setting.shortCost) };
  return { kind: setting?.service === 'jobs' ? 'jobs' : 'fill', asked: setting?.asked ?? USUAL[criticality] };
}

/** What lies free beyond what the place is to have. */
function balanceOf({ place, computed, onHand, reserved }: LineOfPlace) {
  const { wanted, position, levels } = computed;
  return { placeId: place.id, wanted, surplus: Math.min(onHand - reserved, position - Math.max(levels.upTo, 0)) };
}

/** What lies free in the store itself. */
function fromStore({ computed: { wanted } }: LineOfPlace, store: LineOfPlace | undefined, { facts }: AskedOfItem): Offered[] {
  if (store === undefined) return [];
  const at = <T extends { readonly placeId: string; readonly quantity: number }>(rows: readonly T[]) =>
    total(rows.filter(({ placeId }) => placeId === store.place.id));
  const quantity = Math.min(wanted, Math.floor(at(facts.stock) - at(facts.reservations) + 1e-9));
  return quantity > 0 ? [{ fromPlaceId: store.place.id, quantity }] : [];
}
