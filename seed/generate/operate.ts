import { viscosityMpaS } from '../../src/condition/core/viscosity.js';
import { type Course, temperatureAt, turbidityAt } from './course.js';
import { DAY_MS, HOUR_MS, MINUTE_MS, yearShare } from './period.js';
import { randomOf, seedOf, uniformAt, wander } from './random.js';
import { type Run, runAt, spentShare } from './runs.js';
import type { Stop } from './stops.js';

const { PI, cos, floor, max, min, round } = Math;

/** What truly happens in one filtration cycle, before any transmitter or person reads it. */
export interface TrueCycle {
  readonly startMs: number;
  readonly minutes: number;
  readonly flowM3h: number;
  readonly filtrateM3: number;
  readonly temperatureC: number;
  readonly turbidityNtu: number;
  /** Transmembrane pressure at the first and the last moment; it rises in a straight line */
  readonly startKpa: number;
  readonly endKpa: number;
  readonly cartridgeKpa: number | null;
  /** The skid had stood before, and not only for a backwash */
  readonly afterStanding: boolean;
}

const TANK_HOURS = 2.5;
/** Share of the product tank that is drawn before the skid starts again, and share of the filtrate that its backwash takes back */
const DRAWN_DOWN_SHARE = 0.35;
const BACKWASH_SHARE = 0.05;
const LEAST_MINUTES = 1;
/** Resistance at the limit of 70 % permeability, over that just after the recovery clean, less 1 */
const LIMIT_RISE = 1 / 0.7 - 1;
const CLEANED_BY_CEB = 0.85;
const CLOGGING_EXPONENT = 3.2;

/**
 * The cycles of a skid in order of time: filtration until the cycle is over or the product tank is full, then a backwash, then the next cycle or standby until
 * the tank has been drawn down. With `cyclesPerDay` the cycles are longer and fewer, about so many; pressures, flows and volumes of a day stay what they were.
 */
export function* operate(course: Course, cyclesPerDay?: number): Generator<TrueCycle> {
  const { plan, period, duty } = course;
  const random = randomOf(`${plan.key} cycles`);
  const usualMinutes = cyclesPerDay === undefined ? plan.cycleMinutes : max(plan.cycleMinutes, 1440 / cyclesPerDay - plan.backwashMinutes);
  const tankM3 = plan.ratedFlowM3h * TANK_HOURS * max(1, usualMinutes / 60);
  const membrane = membraneOf(course);
  let levelM3 = 0.5 * tankM3;
  let ms = period.fromMs;
  let afterStanding = true;
  const stand = (untilMs: number) => {
    levelM3 = max(0, levelM3 - (duty.demandM3h(ms) * (untilMs - ms)) / HOUR_MS);
    ms = max(ms, round(untilMs / 1000) * 1000);
  };
  const end = { why: 'end', fromMs: period.untilMs, toMs: period.untilMs } as const;
  for (const stop of [...course.stops, end]) {
    while (ms < stop.fromMs - LEAST_MINUTES * MINUTE_MS) {
      const demandM3h = duty.demandM3h(ms);
      const flowM3h = plan.ratedFlowM3h * duty.flowShare(ms) * (1 + 0.006 * random.normal());
      const fullInMinutes = flowM3h > demandM3h ? ((tankM3 - levelM3) / (flowM3h - demandM3h)) * 60 : Number.POSITIVE_INFINITY;
      const usual = usualMinutes * (1 + 0.005 * random.normal());
      const leftMinutes = (stop.fromMs - ms) / MINUTE_MS;
      // The cycle that is under way when the record ends is not over.
      if (stop.why === 'end' && min(usual, fullInMinutes) > leftMinutes) return;
      const minutes = round(60 * min(usual, fullInMinutes, leftMinutes)) / 60;
      if (minutes >= LEAST_MINUTES) {
        const filtrateM3 = (flowM3h * minutes) / 60;
        yield { startMs: ms, minutes, flowM3h, filtrateM3, ...membrane.cycle(ms, minutes / usualMinutes, flowM3h, filtrateM3), afterStanding };
        afterStanding = false;
        levelM3 += filtrateM3 * (1 - BACKWASH_SHARE);
        stand(ms + (minutes + plan.backwashMinutes) * MINUTE_MS);
      }
      if (fullInMinutes <= usual) {
        stand(min(stop.fromMs, ms + (DRAWN_DOWN_SHARE * tankM3 * HOUR_MS) / demandM3h));
        afterStanding = true;
      }
    }
    stand(stop.toMs);
    membrane.stopped(stop);
    afterStanding = true;
  }
}

/** Pressures of the membrane and of the cartridges, with the fouling that the maintenance cleans take away. */
function membraneOf(course: Course) {
  const { plan, water } = course;
  const barPerLmhNew = 1 / plan.newLmhBar;
  const viscosityAtReference = viscosityMpaS(20);
  const scatter = seedOf(`${plan.key} fouling`);
  let maintenance = 0;
  return {
    cycle(ms: number, shareOfCycle: number, flowM3h: number, filtrateM3: number) {
      const temperatureC = temperatureAt(course, ms);
      const turbidityNtu = turbidityAt(course, ms);
      const dirtiness = min(2.5, max(0.7, (turbidityNtu / water.usualNtu) ** 0.35));
      const resistance = lastingResistance(course, ms, scatter) + maintenance;
      maintenance += plan.ceb === null ? 0 : (plan.maintenanceShare * dirtiness * filtrateM3) / (plan.ratedFlowM3h * 20);
      const kpa = (100 * (flowM3h * 1000) * barPerLmhNew * viscosityMpaS(temperatureC)) / (course.areaM2(ms) * viscosityAtReference);
      return {
        temperatureC,
        turbidityNtu,
        startKpa: kpa * resistance,
        endKpa: kpa * (resistance + plan.reversibleShare * dirtiness * shareOfCycle),
        cartridgeKpa: cartridgeKpa(course, ms, flowM3h, viscosityMpaS(temperatureC) / viscosityAtReference),
      };
    },
    stopped({ why }: { why: Stop['why'] | 'end' }) {
      if (why === 'CEB') maintenance *= 1 - CLEANED_BY_CEB;
      if (why === 'CIP') maintenance = 0;
    },
  };
}

/** Resistance just after a maintenance clean as a multiple of the new membrane's: what is lost for good, what the last recovery clean left, what came since. */
function lastingResistance({ plan, period, membraneRuns, membraneClock }: Course, ms: number, seed: number): number {
  const run = runAt(membraneRuns, ms);
  const ageYears = (plan.commissionedDaysAgo - (period.untilMs - ms) / DAY_MS) / 365;
  const season = 0.015 * cos(2 * PI * (yearShare(ms) - 0.15));
  const cleaned = 1 + season + plan.lossPerYear * ageYears + (run ? residue(run, seed) : 0);
  const seen = cleaned + (plan.reversibleShare + plan.maintenanceShare * (plan.ceb?.everyDays ?? 0)) / 2;
  const gained = run ? LIMIT_RISE * seen * spentShare(run, membraneClock, ms) : 0;
  return cleaned + gained * (1 + 0.04 * wander(seed, ms / DAY_MS / 10));
}

/** No two recovery cleans give back the same. */
function residue({ fromMs }: Run, seed: number): number {
  return 0.05 * uniformAt(seed, floor(fromMs / DAY_MS));
}

function cartridgeKpa({ plan, cartridgeRuns, cartridgeClock }: Course, ms: number, flowM3h: number, viscosityRatio: number): number | null {
  const run = runAt(cartridgeRuns, ms);
  if (plan.cartridge === null || run === undefined) return null;
  const { cleanKpa, limitKpa } = plan.cartridge;
  const atReference = cleanKpa + (limitKpa - cleanKpa) * min(1.2, spentShare(run, cartridgeClock, ms)) ** CLOGGING_EXPONENT;
  return (atReference * flowM3h * viscosityRatio) / plan.ratedFlowM3h;
}
