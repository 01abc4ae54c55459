import { viewOf } from '../../app/index.js';
import { type Day, dayPlus, daysBetween } from '../../shared/day.js';
import { PATH_DAYS } from '../core/proposals/need-path.js';
import type { Coming } from '../demand/stock-facts.repository.js';
import type { ComputedLine } from './compute-lines.js';
import { ArrivalView, BalanceOfDayView, ExpiryView, ProjectedView } from './reorder-views.dto.js';
import { type ChangeOfWeek, PAST_WEEKS } from './stock-card.repository.js';

const WEEK = 7;
/** A transfer that nobody gave a day. */
const TRANSFER_DAYS = 2;

const pieces = (quantity: number) => Number(quantity.toFixed(3));
const text = (quantity: number) => String(Number(quantity.toFixed(6)));

/** Stock over time: the past by the ledger, what is ahead by the expected need and by what is on its way. Places that a store supplies are counted with it. */
export function stockCard({ facts, line }: ComputedLine, changes: readonly ChangeOfWeek[], today: Day) {
  const places = new Map([line.place, ...line.supplies].map(({ id, name }) => [id, name]));
  const arrivals = facts.coming.filter(({ placeId }) => places.has(placeId)).map((coming) => arrivalOf(coming, line.leadTime?.p50 ?? TRANSFER_DAYS, today));
  return {
    past: pastOf(
      line.onHand,
      changes.filter(({ placeId }) => places.has(placeId)),
      today,
    ),
    ahead: aheadOf(line, arrivals, today),
    arrivals: arrivals.sort((a, b) => a.day.localeCompare(b.day)),
    expiries: facts.stock
      .flatMap(({ placeId, lot, quantity, until }) => {
        const placeName = places.get(placeId);
        return placeName === undefined || until === null || lot === null ? [] : [viewOf(ExpiryView, { day: until, lot, quantity: text(quantity), placeName })];
      })
      .sort((a, b) => a.day.localeCompare(b.day)),
  };
}

function pastOf(onHand: number, changes: readonly ChangeOfWeek[], today: Day): BalanceOfDayView[] {
  const byWeek = new Map<number, number>();
  for (const { weeksAgo, change } of changes) byWeek.set(weeksAgo, (byWeek.get(weeksAgo) ?? 0) + change);
  let balance = onHand;
  const past = [viewOf(BalanceOfDayView, { day: today, onHand: pieces(balance) })];
  for (let week = 0; week < PAST_WEEKS; week++) {
    balance -= byWeek.get(week) ?? 0;
    past.push(viewOf(BalanceOfDayView, { day: dayPlus(today, -WEEK * (week + 1)), onHand: pieces(Math.max(0, balance)) }));
  }
  return past.reverse();
}

/** The spread of the need grows with the root of time, from what it is over the days that the order point covers. */
function aheadOf({ computed, onHand, reserved }: ComputedLine['line'], arrivals: readonly ArrivalView[], today: Day): ProjectedView[] {
  const { path, need } = computed;
  const spread = need.daysCovered === 0 ? 0 : Math.max(0, need.p90 - need.mean) / Math.sqrt(need.daysCovered);
  return Array.from({ length: Math.floor(PATH_DAYS / WEEK) + 1 }, (_, week) => {
    const inDays = week * WEEK;
    const come = arrivals.filter(({ day }) => daysBetween(today, day) <= inDays).reduce((sum, { quantity }) => sum + Number(quantity), 0);
    const expected = onHand - reserved + come - (path[inDays] ?? 0);
    return viewOf(ProjectedView, { day: dayPlus(today, inDays), expected: pieces(expected), low: pieces(expected - spread * Math.sqrt(inDays)) });
  });
}

function arrivalOf({ kind, quantity, orderId, orderNo, day, sentOn }: Coming, leadDays: number, today: Day): ArrivalView {
  const likely = day ?? (kind === 'order' ? dayPlus(sentOn ?? today, leadDays) : dayPlus(sentOn ?? today, TRANSFER_DAYS));
  const late = likely < today;
  return viewOf(ArrivalView, { day: late ? today : likely, quantity: text(quantity), kind, orderId, orderNo, late });
}
