import { freshIonicStrengthM, strengthAfterGL } from '../../src/chemicals/core/hypochlorite-strength.js';
import type { TankPlan } from '../plan.js';
import { seedOf, uniformAt } from './random.js';

/** What a tank has to give on each day of its record. */
export interface Needs {
  /** Of the active substance, for a dose that is held */
  readonly grams: Float64Array;
  /** For cleans, by volume */
  readonly litres: Float64Array;
}

export interface Delivery {
  readonly day: number;
  readonly litres: number;
  readonly strengthGL: number;
}

export interface Stock {
  /** Litres in the tank when each day begins, and after the last one */
  readonly litres: Float64Array;
  readonly deliveries: readonly Delivery[];
}

/** Litres that come on a day, given what stands in the tank and what the day draws. */
type Supply = (day: number, litres: number, use: number) => number;

const FILLED_TO = 0.93;
const ORDERED_AT = 0.35;

/** Runs a tank through its record. What comes in mixes with what is left; hypochlorite loses strength, and the dosing pump makes up for it. */
export function drawDown(plan: TankPlan, firstL: number, { grams, litres: cleans }: Needs, supply: Supply): Stock {
  const seed = seedOf(`${plan.key} strength`);
  const litres = new Float64Array(grams.length + 1);
  const deliveries: Delivery[] = [];
  let [stockL, strengthGL] = [firstL, plan.strengthGL];
  for (const [day, gramsOfDay] of grams.entries()) {
    litres[day] = stockL;
    const use = gramsOfDay / strengthGL + (cleans[day] ?? 0);
    const broughtL = supply(day, stockL, use);
    if (broughtL > 0) {
      const fresh = Math.round(plan.strengthGL * (0.97 + 0.06 * uniformAt(seed, day)));
      deliveries.push({ day, litres: broughtL, strengthGL: fresh });
      strengthGL = (strengthGL * stockL + fresh * broughtL) / (stockL + broughtL);
      stockL += broughtL;
    }
    stockL -= use;
    if (plan.chemical === 'sodium hypochlorite') strengthGL = strengthAfterGL(strengthGL, 1, plan.storageTemperatureC, freshIonicStrengthM(plan.strengthGL));
  }
  litres[grams.length] = stockL;
  return { litres, deliveries };
}

/** Ordered when a third is left and brought on the day of the lorry; at once where the tank would run dry before that. */
export function usualSupply({ capacityL, heelL }: TankPlan, lorryComes: (day: number) => boolean): Supply {
  return (day, litres, use) => {
    const runsDry = litres - 3 * use < heelL + 0.05 * capacityL;
    const isOrdered = lorryComes(day) && litres < ORDERED_AT * capacityL;
    return runsDry || isOrdered ? Math.max(5, Math.round((FILLED_TO * capacityL - litres) / 5) * 5) : 0;
  };
}
