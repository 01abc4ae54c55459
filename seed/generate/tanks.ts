import { levelAtVolumeM } from '../../src/chemicals/core/tank-volume.js';
import { SITE_OPERATOR, TECHNICIANS } from '../data/people.js';
import type { TankPlan } from '../plan.js';
import type { ScenarioClean, ScenarioTank } from '../types.js';
import type { History } from './history.js';
import { DAY_MS, dayText, HOUR_MS, MINUTE_MS, type Period, weekday } from './period.js';
import { randomOf } from './random.js';
import { drawDown, type Needs, type Stock, usualSupply } from './tank-stock.js';

interface TankInput {
  readonly plan: TankPlan;
  readonly skidKey: string;
  readonly period: Period;
  readonly offsetMs: number;
  /** What the skid did; `null` for a tank of a CIP unit, from which only cleans draw */
  readonly history: History | null;
  /** Cleans that draw from it */
  readonly cleans: readonly ScenarioClean[];
  readonly isReadBySite: boolean;
  /** Nobody has been there since */
  readonly silentForDays: number;
}

const DIP_HOUR = 8;
const DELIVERY_HOUR = 13;
const DIP_STEP_M = 0.01;
const OVER_FEED_DAYS = 120;
const SETTLING_ROUNDS = 4;
/** Day of the week on which the tanks are dipped, and on which the lorry comes: Monday, Thursday */
const DIPPED_ON = 1;
const DELIVERED_ON = 4;

/** A tank with its weekly dips and its deliveries, as dose, flow and cleans have drawn from it. */
export function tankOf(input: TankInput): ScenarioTank {
  const { plan, skidKey, period, offsetMs } = input;
  const { overFeed: _, emptyInDays: __, ...built } = plan;
  const firstMs = Math.floor((period.fromMs + offsetMs) / DAY_MS) * DAY_MS - offsetMs;
  const needs = needsOf(input, firstMs);
  const firstL = plan.capacityL * randomOf(`${plan.key} first`).between(0.6, 0.9);
  const lorryComes = (day: number) => weekday(firstMs + day * DAY_MS, offsetMs) === DELIVERED_ON;
  const stock = endingAs(plan, firstL, needs, drawDown(plan, firstL, needs, usualSupply(plan, lorryComes)));
  const by = input.isReadBySite ? SITE_OPERATOR : TECHNICIANS[0];
  const isKnown = ({ at }: { readonly at: Date }) => at.getTime() >= period.fromMs && at.getTime() < period.untilMs - input.silentForDays * DAY_MS;
  const deliveries = stock.deliveries.map(({ day, litres, strengthGL }) => ({
    at: new Date(firstMs + day * DAY_MS + DELIVERY_HOUR * HOUR_MS),
    volumeL: litres,
    strengthGL,
    lot: `B${dayText(firstMs + (day + 0.5) * DAY_MS)
      .replaceAll('-', '')
      .slice(2)}`,
    by,
  }));
  return { ...built, skidKey, dips: dipsOf(input, firstMs, stock, by).filter(isKnown), deliveries: deliveries.filter(isKnown) };
}

/** What the days of the plant's clock ask for. A pump that feeds too much gives more than the dose that is set. */
function needsOf({ plan, period, history, cleans }: TankInput, firstMs: number): Needs {
  const days = Math.ceil((period.untilMs - firstMs) / DAY_MS);
  const needs = { grams: new Float64Array(days), litres: new Float64Array(days) };
  const random = randomOf(`${plan.key} use`);
  for (let day = 0; day < days; day += 1) {
    const overFeed = (plan.overFeed ?? 0) * Math.max(0, 1 - (days - day) / OVER_FEED_DAYS);
    needs.grams[day] = (plan.doseMgL ?? 0) * (history?.filtrateM3[day] ?? 0) * (1 + overFeed) * (1 + 0.03 * random.normal());
  }
  for (const { kind, at, chemical } of cleans) {
    const day = Math.floor((at.getTime() - firstMs) / DAY_MS);
    if (chemical === plan.chemical) needs.litres[day] = (needs.litres[day] ?? 0) + ((kind === 'CEB' ? plan.litresPerCeb : plan.litresPerCip) ?? 0);
  }
  return needs;
}

/** Where the plan says when the tank runs out, the last delivery brought as much as leads there; one that would have had to take away did not come. */
function endingAs(plan: TankPlan, firstL: number, needs: Needs, usual: Stock): Stock {
  if (plan.emptyInDays === undefined) return usual;
  let stock = usual;
  for (let round = 0; round < SETTLING_ROUNDS; round += 1) {
    const brought = new Map(stock.deliveries.map(({ day, litres }) => [day, litres]));
    let missingL = plan.heelL + plan.emptyInDays * recentUse(stock) - (stock.litres.at(-1) ?? 0);
    for (const { day, litres } of stock.deliveries.toReversed()) {
      brought.set(day, Math.max(0, Math.round(litres + missingL)));
      missingL += litres - (brought.get(day) ?? 0);
      if (Math.abs(missingL) < 1) break;
    }
    stock = drawDown(plan, firstL, needs, (day) => brought.get(day) ?? 0);
  }
  return stock;
}

/** Litres a day over the two weeks before the last delivery or the end, whichever the tank was not filled in. */
function recentUse({ litres, deliveries }: Stock): number {
  const days = litres.length - 1;
  const before = 14;
  const brought = deliveries.filter(({ day }) => day >= days - before).reduce((sum, delivery) => sum + delivery.litres, 0);
  return ((litres[days - before] ?? 0) + brought - (litres[days] ?? 0)) / before;
}

function dipsOf({ plan, offsetMs }: TankInput, firstMs: number, { litres, deliveries }: Stock, readBy: string): ScenarioTank['dips'][number][] {
  const random = randomOf(`${plan.key} dips`);
  const brought = new Map(deliveries.map((delivery) => [delivery.day, delivery.litres]));
  const list: ScenarioTank['dips'][number][] = [];
  for (let day = 0; day < litres.length - 1; day += 1) {
    const atMs = firstMs + day * DAY_MS + DIP_HOUR * HOUR_MS + Math.round(random.between(0, 50)) * MINUTE_MS;
    const isForgotten = random.uniform() < 0.05;
    if (weekday(atMs, offsetMs) !== DIPPED_ON || isForgotten) continue;
    // Before the lorry comes.
    const use = (litres[day] ?? 0) + (brought.get(day) ?? 0) - (litres[day + 1] ?? 0);
    const levelM = levelAtVolumeM(plan, (litres[day] ?? 0) - (use * DIP_HOUR) / 24) + 0.004 * random.normal();
    list.push({ at: new Date(atMs), levelM: Math.max(0, Math.round(levelM / DIP_STEP_M) / Math.round(1 / DIP_STEP_M)), readingError: DIP_STEP_M / 2, readBy });
  }
  return list;
}
