import type { PersonToPlan, PlanInput, SiteToPlan, Span, WorkToPlan } from '../../visits/core/planner/plan-input.js';
import { SeededRandom } from '../../visits/core/planner/seeded-random.js';

export interface FleetSettings {
  readonly visits: number;
  readonly technicians: number;
  readonly weeks: number;
  readonly seed: number;
  /** Share of sites that are 4 to 7 hours from every home */
  readonly remote: number;
}

const SIDE_KM = 150;
/** Roads are longer than the straight line, and slower near home. Common practice. */
const ROAD = 1.3;
const NEAR_KM = 10;
const NEAR_KMH = 35;
const FAR_KMH = 70;
const SKILLS = ['pumps', 'membranes', 'controls', 'dosing', 'integrity'];
const DAY: Span = { from: 480, until: 1020 };
const LATE = 90;
const EARLY = 6;

/** Sites in towns and around them, people with skills and days off, work with a best day, a first and a last one. Everything is drawn from the seed; costs are minutes. */
export function syntheticFleet({ visits, technicians, weeks, seed, remote }: FleetSettings): PlanInput {
  const random = new SeededRandom(seed);
  const days = weeks * 7;
  const towns = Array.from({ length: Math.max(4, Math.round(visits / 60)) }, () => [random.next() * SIDE_KM, random.next() * SIDE_KM] as const);
  const bump = () => ((random.next() + random.next() + random.next() - 1.5) * 2) / 3;
  const somewhere = (): readonly [number, number] => {
    const town = towns[random.below(towns.length)];
    return random.next() < 0.65 && town !== undefined ? [town[0] + bump() * 18, town[1] + bump() * 18] : [random.next() * SIDE_KM, random.next() * SIDE_KM];
  };
  const homes = Array.from({ length: technicians }, somewhere);
  // Several pieces of work at a remote site: nobody drives six hours for one filter.
  const remoteSites = remote === 0 ? 0 : Math.max(1, Math.round((visits * remote) / 5));
  const near = Array.from({ length: visits - Math.round(visits * remote) }, somewhere);
  const far = Array.from({ length: remoteSites }, () => {
    const angle = random.next() * 2 * Math.PI;
    const away = SIDE_KM * 0.75 + 290 + random.next() * 40;
    return [SIDE_KM / 2 + away * Math.cos(angle), SIDE_KM / 2 + away * Math.sin(angle)] as const;
  });
  const places = [...homes, ...near, ...far];
  const km = Float64Array.from(places.flatMap((one) => places.map((two) => Math.hypot(one[0] - two[0], one[1] - two[1]) * ROAD)));
  const minutes = km.map((road) => (road === 0 ? 0 : 2 + (Math.min(road, NEAR_KM) / NEAR_KMH + Math.max(0, road - NEAR_KM) / FAR_KMH) * 60));
  const sites = [...near, ...far].map((_, at) => siteOf(random, days, at, at < near.length));
  const work = Array.from({ length: visits }, (_, at) => {
    const site = at < near.length ? at : near.length + ((at - near.length) % remoteSites);
    return workOf(random, days, at, site, sites[site]?.open[0]?.[0] ?? DAY, site >= near.length);
  });
  const people = homes.map((_, at) => personOf(random, days, at));
  return { days, people, sites, work, travel: { minutes, km }, prices: { minute: 1, travelMinute: 0, workMinute: 0, overtimeMinute: 1, km: 0, change: 40 } };
}

function siteOf(random: SeededRandom, days: number, at: number, near: boolean): SiteToPlan {
  const drawn = random.next();
  const span = drawn < 0.6 || !near ? DAY : drawn < 0.8 ? { from: 480, until: 720 } : { from: 780, until: 1020 };
  return { name: `Site ${at + 1}`, open: Array.from({ length: days }, () => [span]) };
}

function workOf(random: SeededRandom, days: number, at: number, site: number, open: Span, remote: boolean): WorkToPlan {
  const minutes = Math.min(45 + random.below(14) * 15, open.until - open.from < 500 ? 120 : 240);
  const best = random.below(Math.max(1, days - 4));
  const wide = remote ? 14 : ([2, 4, 7, 10][random.below(4)] ?? 7);
  const latest = Math.min(days - 1, best + Math.ceil(wide / 2));
  const parts = random.next() < 0.15 ? Math.max(0, best - 2) : 0;
  const skills = [SKILLS[random.below(4)] ?? 'pumps', ...(random.next() < 0.2 ? [SKILLS[random.below(5)] ?? 'pumps'] : [])];
  const dayCost = Float64Array.from({ length: days }, (_, day) =>
    day < best - wide ? Number.POSITIVE_INFINITY : day > latest ? (day - latest) * LATE : Math.max(0, best - day) * EARLY,
  );
  return {
    name: `Work ${at + 1}`,
    site,
    minutes,
    skills,
    people: 1,
    dayCost,
    unassignedCost: remote ? 3000 : 1500,
    partsFrom: parts,
    promised: null,
    published: null,
  };
}

function personOf(random: SeededRandom, days: number, at: number): PersonToPlan {
  const skills = new Map<string, number | null>(SKILLS.filter(() => random.next() < 0.7 || at % 5 === 0).map((skill) => [skill, null]));
  const shifts = Array.from({ length: days }, (_, day) => (day % 7 < 5 && random.next() > 0.06 ? { ...DAY, regularUntil: DAY.until } : null));
  return { name: `Technician ${at + 1}`, shifts, skills, mostNights: 4, nightCost: 120 };
}
