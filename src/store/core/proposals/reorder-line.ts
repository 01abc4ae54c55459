import { type CatalogueFit } from '../demand/catalogue/fit-catalogue.js';
import { needUntil } from '../demand/need-until.js';
import { atMost, quantileOf, shortfall } from '../demand/pmf/pmf.js';
import type { Demand, DemandSources, OutlookRecord } from '../demand/types.js';
import { LOOK_AHEAD_DAYS } from '../orders/group-lines.js';
import { canOrderDays } from '../policy/can-order.js';
import { type StockPace, stockPaceOf } from '../policy/idle-stock.js';
import { type ServiceOfStock, serviceOf } from '../policy/service.js';
import { dayOfNeed, type LotLeft, type NeedPath, needPath, willExpire } from './need-path.js';
import { type LevelsAsked, type StockLevels, stockLevels } from './stock-levels.js';

/** An item at a place: what is needed of it, what there is, and how it is kept. Pieces are whole: parts of one are not counted. */
export interface LineAsked extends LevelsAsked {
  readonly sources: DemandSources;
  /** Probability of each number of days from the order on */
  readonly leadTime: readonly number[];
  readonly onHand: number;
  readonly reserved: number;
  /** On order and on the way */
  readonly coming: number;
  readonly lots: readonly LotLeft[];
  /** Kept in stock though no plan and no use of late asks for it */
  readonly alwaysKept: boolean;
  /** Months since the last use; null: never */
  readonly idleMonths: number | null;
  /** Months for which its use is known */
  readonly knownMonths: number;
}

export interface LineComputed {
  readonly need: Pick<Demand, 'mean' | 'ofPlans' | 'ofOutlooks' | 'ofTheRest' | 'reasons' | 'daysCovered'> & { readonly p50: number; readonly p90: number };
  readonly levels: StockLevels;
  readonly position: number;
  readonly expiring: number;
  /** Above 0: to be ordered now */
  readonly wanted: number;
  /** Above 0: what an order for something else may take along, since it falls due soon enough */
  readonly fillsUp: number;
  /** It pays to take it along: its own order would cost more than keeping it until then */
  readonly canOrder: boolean;
  /** Days from today; null: not within half a year */
  readonly orderInDays: number | null;
  readonly neededInDays: number | null;
  readonly perYear: number;
  readonly service: Readonly<Record<'now' | 'oneMore' | 'oneLess', ServiceOfStock>>;
  readonly ifItWaits: IfItWaits | null;
  readonly pace: StockPace;
  readonly path: NeedPath;
}

export interface IfItWaits {
  readonly days: number;
  readonly enoughNow: number;
  readonly enoughLater: number;
  readonly missingLater: number;
}

/** Lead times that the need is taken at: a list of many thousand lines is made of them, and three tell as much as six to within a tenth of a piece. */
const LEAD_TIMES = 3;
/** A week, or to the next review where that is later. */
const WAIT_DAYS = 7;
/** What was not used for so long is not kept, unless somebody says so or work asks for it. Common practice. */
const NOT_KEPT_AFTER_MONTHS = 24;
const NOTHING: Demand = { pmf: Float64Array.of(1), mean: 0, ofPlans: 0, ofOutlooks: 0, ofTheRest: 0, reasons: [], daysCovered: 0 };

/**
 * One line of the reorder list: the need until what is ordered at the next review has come, what there is for it, when and how much to order, and what the stock
 * as it is would be good for.
 */
export function reorderLine(asked: LineAsked, fit: CatalogueFit, record: OutlookRecord): LineComputed {
  const { sources, leadTime, reviewDays, onHand, reserved, coming, lots, minimum } = asked;
  const kept = isKept(asked);
  const until = (days: number) => (kept ? needUntil(sources, { leadTime, reviewDays: days }, fit, record, LEAD_TIMES) : NOTHING);
  const both = until(reviewDays);
  const lead = reviewDays === 0 ? both : until(0);
  const restPerDay = both.daysCovered === 0 ? 0 : both.ofTheRest / both.daysCovered;
  const path = needPath(sources, restPerDay, record);
  const perYear = 2 * (path.at(-1) ?? 0);
  const expiring = willExpire(lots, path);
  const position = Math.floor(onHand - reserved + coming - expiring + 1e-9);
  const levels = stockLevels(lead.pmf, both.pmf, perYear, asked);
  const wanted = position <= levels.point ? levels.upTo - position : 0;
  const wait = Math.max(WAIT_DAYS, reviewDays);
  const orderInDays = wanted > 0 ? 0 : levels.point < 0 ? null : dayOfNeed(path, position - levels.point);
  const fillsUp = wanted <= 0 && orderInDays !== null && orderInDays <= LOOK_AHEAD_DAYS ? filledUp(levels, position, path[orderInDays] ?? 0, asked.maximum) : 0;
  return {
    need: { ...both, p50: quantileOf(both.pmf, 0.5), p90: quantileOf(both.pmf, 0.9) },
    levels,
    position,
    expiring,
    wanted,
    fillsUp,
    canOrder: fillsUp > 0 && (orderInDays ?? 0) <= canOrderDays({ quantity: fillsUp, unitCost: asked.unitCost, orderCost: asked.orderCost }),
    orderInDays,
    // As likely as not that one more is needed than there is.
    neededInDays: position < 0 ? 0 : dayOfNeed(path, position + 0.5),
    perYear,
    service: serviceOf(both.pmf, position),
    ifItWaits: wanted > 0 ? waiting(lead, until(wait), position, wait) : null,
    pace: stockPaceOf({ onHand, idleMonths: asked.idleMonths ?? asked.knownMonths, expectedPerYear: perYear, atLeast: minimum }),
    path,
  };
}

/** Up to the level; where it is reached already and work to come asks for more, what goes until then. */
function filledUp({ upTo }: StockLevels, position: number, goes: number, maximum: number | null): number {
  if (upTo > position) return upTo - position;
  return maximum === null ? Math.round(goes) : 0;
}

/** Where a minimum alone asks for it, the minimum alone is kept. */
function isKept({ sources, alwaysKept, idleMonths }: LineAsked): boolean {
  return alwaysKept || sources.planned.length > 0 || sources.fitted.length > 0 || (idleMonths !== null && idleMonths < NOT_KEPT_AFTER_MONTHS);
}

function waiting(now: Demand, later: Demand, position: number, days: number): IfItWaits {
  const enough = ({ pmf }: Demand) => (position < 0 ? 0 : atMost(pmf, position));
  return { days, enoughNow: enough(now), enoughLater: enough(later), missingLater: shortfall(later.pmf, position) };
}
