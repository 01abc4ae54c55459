import { MANAGER } from '../data/people.js';
import type { SharedPlan, SitePlan, SkidPlan } from '../plan.js';
import type {
  ScenarioClean,
  ScenarioFitting,
  ScenarioHandReading,
  ScenarioMeter,
  ScenarioPosition,
  ScenarioServiceEntry,
  ScenarioSkid,
  ScenarioStateChange,
  ScenarioTank,
} from '../types.js';
import { cleansOf } from './cleans.js';
import type { Course } from './course.js';
import { cartridgeFittings, firstFittings, withReplacements } from './fittings.js';
import { handRecord } from './hand-readings.js';
import { type History, historyOf } from './history.js';
import { countsOfCompressor, countsOfSkid, displayOf, type MachineCount, type MeterStory, meterOf } from './meters.js';
import { DAY_MS, dayText, type Period, plantOffsetMs } from './period.js';
import { type BuiltPosition, positionsOfShared, positionsOfSkid } from './positions.js';
import { seedOf } from './random.js';
import { repairEntries, upkeepEntries } from './service-entries.js';
import { tankOf } from './tanks.js';

/** Everything of one skid or shared unit that is small enough to be kept at once. */
interface PlantRecord {
  readonly skid: ScenarioSkid;
  readonly positions: readonly ScenarioPosition[];
  readonly fittings: readonly ScenarioFitting[];
  readonly meters: readonly ScenarioMeter[];
  readonly tanks: readonly ScenarioTank[];
  readonly serviceEntries: readonly ScenarioServiceEntry[];
}

interface SkidRecord extends PlantRecord {
  readonly stateChanges: readonly ScenarioStateChange[];
  readonly cleans: readonly ScenarioClean[];
  readonly handReadings: readonly ScenarioHandReading[];
  readonly history: History;
}

const MONTH_DAYS = 28;
const WEEK_DAYS = 7;
const NOTE = 'Demo data: invented.';

export function skidRecord(course: Course, cyclesPerDay?: number): SkidRecord {
  const { plan, period, offsetMs } = course;
  const history = historyOf(course, cyclesPerDay);
  const commissionedMs = period.untilMs - plan.commissionedDaysAgo * DAY_MS;
  const positions = positionsOfSkid(plan);
  const cleans = cleansOf(course);
  const hand = plan.readBy === 'gateway' ? null : handRecord(course, cyclesPerDay);
  const counts = countsOfSkid(course, history);
  const storyOf = ({ positionKey }: MachineCount): MeterStory => (positionKey.endsWith('Feed pump') ? plan.feedPumpMeter : undefined);
  const displays = new Map(counts.map((count) => [count.positionKey, displayOf(count.count, storyOf(count), period, offsetMs)]));
  const cycles = history.cycles.slice(-60).reduce((sum, ofDay) => sum + ofDay, 0) / 60;
  return {
    skid: skidOf(plan, period, commissionedMs),
    positions: positions.map(toPosition),
    fittings: [...withReplacements(firstFittings(positions, commissionedMs), course), ...cartridgeFittings(course)],
    // Where people read the gauges anyway, they read the hour meter of the feed pump with them.
    meters: hand ? [hand.meter] : counts.map((count) => meterOf(count, MONTH_DAYS, storyOf(count), period, offsetMs)),
    tanks: plan.tanks.map((tank) =>
      tankOf({
        plan: tank,
        skidKey: plan.key,
        period,
        offsetMs,
        history,
        cleans,
        isReadBySite: plan.readBy === 'gauges in US units',
        silentForDays: plan.silentForDays ?? 0,
      }),
    ),
    serviceEntries: [
      ...upkeepEntries({ wholeSkidKey: plan.key, positions, counts, displays, cyclesPerDay: cycles, commissionedMs, siteKey: plan.siteKey, period, offsetMs }),
      ...repairEntries(course, displays),
    ],
    stateChanges: stateChanges(plan, period),
    cleans,
    handReadings: hand?.readings ?? [],
    history,
  };
}

export function sharedRecord(plan: SharedPlan, site: SitePlan, served: readonly SkidRecord[], record: Period): PlantRecord {
  const offsetMs = plantOffsetMs(site.longitude);
  const commissionedMs = record.untilMs - plan.commissionedDaysAgo * DAY_MS;
  const period = { fromMs: Math.max(record.fromMs, commissionedMs), untilMs: record.untilMs };
  const positions = positionsOfShared(plan);
  const counts =
    plan.machine === 'compressor'
      ? countsOfCompressor(
          plan.key,
          commissionedMs,
          served.map(({ history }) => history),
        )
      : [];
  const displays = new Map(
    counts.filter(({ kind }) => kind === 'run hours').map(({ positionKey, count }) => [positionKey, displayOf(count, undefined, period, offsetMs)]),
  );
  const cleans = served.flatMap((skid) => skid.cleans).filter(({ kind }) => kind === 'CIP');
  return {
    skid: sharedOf(plan, commissionedMs),
    positions: positions.map(toPosition),
    fittings: firstFittings(positions, commissionedMs),
    meters: counts.map((count) => meterOf(count, WEEK_DAYS, undefined, period, offsetMs)),
    tanks: plan.tanks.map((tank) => tankOf({ plan: tank, skidKey: plan.key, period, offsetMs, history: null, cleans, isReadBySite: false, silentForDays: 0 })),
    serviceEntries: upkeepEntries({
      wholeSkidKey: null,
      positions,
      counts,
      displays,
      cyclesPerDay: 0,
      commissionedMs,
      siteKey: plan.siteKey,
      period,
      offsetMs,
    }),
  };
}

export function skidOf(plan: SkidPlan, period: Period, commissionedMs: number): ScenarioSkid {
  const { isolatedModule, areaM2, modules } = plan;
  const dayAgo = (days: number) => dayText(period.untilMs - days * DAY_MS);
  const isolated = isolatedModule
    ? [
        { fromDay: dayAgo(isolatedModule.fromDaysAgo), areaM2: areaM2 * (1 - 1 / modules) },
        { fromDay: dayAgo(isolatedModule.toDaysAgo), areaM2 },
      ]
    : [];
  return {
    ...about(plan, commissionedMs),
    serviceState: plan.laidUp !== undefined && plan.laidUp.toDaysAgo < 0 ? 'laid up' : 'in service',
    kind: 'skid',
    servesKeys: [],
    water: plan.water,
    ratedFlowM3h: plan.ratedFlowM3h,
    flowScheme: plan.flowScheme,
    tmpFrom: plan.tmpFrom,
    feedHeightM: plan.feedHeightM,
    filtrateHeightM: plan.filtrateHeightM,
    concentrateHeightM: plan.concentrateHeightM,
    areas: [{ fromDay: dayText(commissionedMs), areaM2 }, ...isolated],
    baselineLmhBar: plan.baselineKnown ? plan.newLmhBar : null,
    cartridgeLimitKpa: plan.cartridge?.limitKpa ?? null,
    cartridgeReferenceFlowM3h: plan.cartridge ? plan.ratedFlowM3h : null,
  };
}

function sharedOf(plan: SharedPlan, commissionedMs: number): ScenarioSkid {
  return {
    ...about(plan, commissionedMs),
    kind: 'shared',
    servesKeys: plan.servesKeys,
    water: '',
    ratedFlowM3h: null,
    flowScheme: null,
    tmpFrom: null,
    feedHeightM: 0,
    filtrateHeightM: 0,
    concentrateHeightM: 0,
    areas: [],
    baselineLmhBar: null,
    cartridgeLimitKpa: null,
    cartridgeReferenceFlowM3h: null,
  };
}

function about({ key, siteKey, name }: Pick<SkidPlan, 'key' | 'siteKey' | 'name'>, commissionedMs: number) {
  return {
    key,
    siteKey,
    name,
    serialNumber: `DEMO-${dayText(commissionedMs).slice(0, 4)}-${String(seedOf(key) % 100_000).padStart(5, '0')}`,
    commissionedOn: dayText(commissionedMs),
    referenceC: 20,
    permeabilityLimitFraction: 0.7,
    serviceState: 'in service',
    note: NOTE,
  } as const;
}

function stateChanges({ key, laidUp, commissionedDaysAgo }: SkidPlan, { untilMs }: Period): ScenarioStateChange[] {
  const change = (daysAgo: number, state: ScenarioStateChange['state'], note: string): ScenarioStateChange => ({
    skidKey: key,
    at: new Date(untilMs - daysAgo * DAY_MS),
    state,
    by: MANAGER,
    note,
  });
  const start = change(commissionedDaysAgo, 'in service', 'Commissioned');
  if (laidUp === undefined) return [start];
  return [
    start,
    change(laidUp.fromDaysAgo, 'laid up', laidUp.why),
    ...(laidUp.toDaysAgo < 0 ? [] : [change(laidUp.toDaysAgo, 'in service', 'Flushed, disinfected, restarted')]),
  ];
}

function toPosition({ key, skidKey, parentKey, kind, name, strokesPerCycle, signal }: BuiltPosition): ScenarioPosition {
  return { key, skidKey, parentKey, kind, name, strokesPerCycle, signal };
}
