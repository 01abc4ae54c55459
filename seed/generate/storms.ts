import { DAY_MS, HOUR_MS, hoursOf, type Period, yearShare } from './period.js';
import { seedOf, uniformAt } from './random.js';

const { PI, cos, exp, floor, log } = Math;

const WARM_UP_DAYS = 20;
const USUAL_PER_DAY = 0.045;

/**
 * Dirt that storms stir up in the waters of a region, hour by hour: 0 in quiet weather, about 1 after a usual storm, fading over so many days. More storms
 * come in autumn and winter. All sites of a region have the same ones.
 */
export function stormDirt(region: string, fadingDays: number, period: Period): Float64Array {
  const seed = seedOf(`${region} storms`);
  const firstDay = floor(period.fromMs / DAY_MS) - WARM_UP_DAYS;
  const kept = exp(-1 / (24 * fadingDays));
  const dirt = new Float64Array(hoursOf(period) + 1);
  let level = 0;
  for (let hourMs = firstDay * DAY_MS; hourMs <= period.untilMs; hourMs += HOUR_MS) {
    level = level * kept + stormAt(seed, hourMs);
    const index = floor((hourMs - period.fromMs) / HOUR_MS);
    if (index >= 0 && index < dirt.length) dirt[index] = level;
  }
  return dirt;
}

function stormAt(seed: number, hourMs: number): number {
  const day = floor(hourMs / DAY_MS);
  const season = 1 + 0.6 * cos(2 * PI * (yearShare(hourMs) - 0.9));
  if (uniformAt(seed, 3 * day) > USUAL_PER_DAY * season) return 0;
  if (floor(24 * uniformAt(seed, 3 * day + 1)) !== floor((hourMs - day * DAY_MS) / HOUR_MS)) return 0;
  // Few are heavy: the strength is exponential, of mean 1.
  return -log(1 - uniformAt(seed, 3 * day + 2));
}
