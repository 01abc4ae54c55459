import type { SkidPlan, Stretch } from '../plan.js';
import { DAY_MS, HOUR_MS, type Period, yearShare } from './period.js';
import { seedOf, wander } from './random.js';

const { PI, cos, min } = Math;

/** Share of the time that a skid filtrates when it never waits: the rest goes into backwashes and cleans. */
const UPTIME = 0.9;

/** How much water is asked for, and how much the skid can give. */
export interface Duty {
  /** Drawn from the product tank at a moment of the day */
  demandM3h(ms: number): number;
  /** What the feed pump gives, as a share of the rated flow */
  flowShare(ms: number): number;
  /** Filtrate of the hour that begins then, without the ups and downs of the day, which the product tank levels out */
  expectedM3(ms: number): number;
  isLaidUp(ms: number): boolean;
}

export function dutyOf(plan: SkidPlan, period: Period, offsetMs: number): Duty {
  const { ratedFlowM3h, demandShare, summerSwing, laidUp } = plan;
  const seed = seedOf(`${plan.key} demand`);
  const isLaidUp = (ms: number) => laidUp !== undefined && isWithin(ms, laidUp, period);
  const levelled = (ms: number) => {
    const season = 1 + summerSwing * cos(2 * PI * (yearShare(ms) - 0.54));
    return ratedFlowM3h * demandShare * season * (1 + 0.05 * wander(seed, ms / DAY_MS));
  };
  const flowShare = (ms: number) => wornShare(plan, (period.untilMs - ms) / DAY_MS);
  return {
    demandM3h: (ms) => levelled(ms) * (1 + 0.3 * cos((2 * PI * (((ms + offsetMs) % DAY_MS) - 18 * HOUR_MS)) / DAY_MS)),
    flowShare,
    expectedM3: (ms) => (isLaidUp(ms) ? 0 : min(ratedFlowM3h * flowShare(ms) * UPTIME, levelled(ms))),
    isLaidUp,
  };
}

export function isWithin(ms: number, { fromDaysAgo, toDaysAgo }: Stretch, { untilMs }: Period): boolean {
  return ms >= untilMs - fromDaysAgo * DAY_MS && ms < untilMs - toDaysAgo * DAY_MS;
}

function wornShare({ wear }: SkidPlan, daysAgo: number): number {
  if (wear === undefined || daysAgo >= wear.fromDaysAgo) return 1;
  const lost = (days: number) => (wear.sharePerYear * days) / 365;
  if (daysAgo >= wear.sealDaysAgo) return 1 - lost(wear.fromDaysAgo - daysAgo);
  return 1 - lost(wear.fromDaysAgo - wear.sealDaysAgo) * (1 - wear.regained) - lost(wear.sealDaysAgo - daysAgo);
}
