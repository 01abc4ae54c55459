import type { SitePlan, WaterKind } from '../plan.js';
import { DAY_MS, HOUR_MS, hoursOf, type Period, yearShare } from './period.js';
import { seedOf, wander } from './random.js';
import { stormDirt } from './storms.js';

const { PI, cos, exp, floor, max, min } = Math;

interface WaterHabits {
  readonly meanC: number;
  readonly swingC: number;
  /** Share of the year at which it is warmest */
  readonly warmest: number;
  readonly turbidityNtu: number;
  /** Turbidity of a usual storm as a multiple of the usual one */
  readonly stormGain: number;
  readonly fadingDays: number;
}

/** Common practice for waters of temperate lands; invented in detail. */
const HABITS: Readonly<Record<WaterKind, WaterHabits>> = {
  river: { meanC: 10.8, swingC: 7.5, warmest: 0.57, turbidityNtu: 4, stormGain: 6, fadingDays: 1.3 },
  well: { meanC: 10.5, swingC: 0.6, warmest: 0.7, turbidityNtu: 0.35, stormGain: 0.1, fadingDays: 5 },
  reservoir: { meanC: 10.8, swingC: 6.2, warmest: 0.6, turbidityNtu: 1.6, stormGain: 1.6, fadingDays: 6 },
  sea: { meanC: 18.2, swingC: 5, warmest: 0.63, turbidityNtu: 1.1, stormGain: 2.5, fadingDays: 2 },
  'tertiary effluent': { meanC: 15.5, swingC: 5, warmest: 0.6, turbidityNtu: 2.6, stormGain: 1.5, fadingDays: 1 },
};

/** What comes to the skid, hour by hour from the beginning of the period. */
export interface FeedWater {
  readonly temperatureC: Float64Array;
  readonly turbidityNtu: Float64Array;
  /** Of quiet weather */
  readonly usualNtu: number;
}

export function feedWater(site: SitePlan, water: WaterKind, period: Period): FeedWater {
  const habits = HABITS[water];
  const hours = hoursOf(period) + 1;
  const dirt = stormDirt(site.region, habits.fadingDays, period);
  const warmth = seedOf(`${site.region} warmth`);
  const clouding = seedOf(`${site.key} ${water} clouding`);
  const temperatureC = new Float64Array(hours);
  const turbidityNtu = new Float64Array(hours);
  for (let hour = 0; hour < hours; hour += 1) {
    const ms = period.fromMs + hour * HOUR_MS;
    const day = ms / DAY_MS;
    const season = cos(2 * PI * (yearShare(ms) - habits.warmest));
    const wave = habits.meanC + site.warmerC + habits.swingC * (season + 0.2 * wander(warmth, day / 8));
    temperatureC[hour] = max(1.2, wave);
    const quiet = habits.turbidityNtu * exp(0.3 * wander(clouding, day / 4));
    turbidityNtu[hour] = quiet * (1 + habits.stormGain * (dirt[hour] ?? 0));
  }
  return { temperatureC, turbidityNtu, usualNtu: habits.turbidityNtu };
}

/** Between two hours, in a straight line. */
export function atMoment(hourly: Float64Array, period: Period, ms: number): number {
  const place = max(0, min((ms - period.fromMs) / HOUR_MS, hourly.length - 1));
  const hour = floor(place);
  const left = hourly[hour] ?? 0;
  return left + ((hourly[hour + 1] ?? left) - left) * (place - hour);
}
