import { type Course, courseOf } from '../../../seed/generate/course.js';
import { CHANGED_AT_LIMIT, CHANGED_EARLY } from '../../../seed/generate/fittings.js';
import { handRecord } from '../../../seed/generate/hand-readings.js';
import { DAY_MS, dayText, type Period } from '../../../seed/generate/period.js';
import { skidOf } from '../../../seed/generate/records.js';
import { reportedCycles } from '../../../seed/generate/report-cycles.js';
import type { SitePlan, SkidPlan } from '../../../seed/plan.js';
import type { HandValue } from '../../../seed/types.js';
import { baselines } from '../../condition/core/baseline.js';
import type { DailyCondition } from '../../condition/core/daily-condition.js';
import { daysOfRecord, type SkidAsBuilt } from '../../condition/core/days-of-record.js';
import type { HandRow } from '../../intake/core/hand-row.js';
import type { RecordOfSkid } from '../../outlook/core/skid/as-known-on.js';
import type { OutlookDay, OutlookFacts } from '../../outlook/core/skid/known-of-skid.js';
import { SIGNALS, type SignalCode } from '../../shared/signals.js';
import { fromStored, toStored } from '../../shared/units.js';
import type { SweptSkid, TrueRun } from './swept-skid.js';

/** A skid whose record was drawn, with what people read of it. */
export interface DrawnSkid extends SweptSkid {
  /** As people read it, by what was read until a moment */
  readonly readUntil: (ms: number) => RecordOfSkid;
}

export function drawnSkid(plan: SkidPlan, site: SitePlan, record: Period, everyDays: number): DrawnSkid {
  const course = courseOf(plan, site, record);
  const skid = skidOf(plan, course.period, record.untilMs - plan.commissionedDaysAgo * DAY_MS);
  const built = { ...skid, scheme: plan.flowScheme, timeZone: site.timeZone };
  const rest = { cleans: cleanDays(course), sets: setsOf(course) };
  const { readings, meter } = handRecord(course, undefined, everyDays);
  const rows = readings.map(({ at, minutesSinceBackwash, values }, index): HandRow => {
    const hours = meter.readings[index];
    return { at, minutesSinceBackwash, values: inStoredUnits(values), feedPumpHours: hours?.kind === 'reading' ? hours.value : null };
  });
  const allRead = daysOfRecord(built, [], rows).map(toDay);
  const daysReadUntil = (ms: number): OutlookDay[] => {
    const known = rows.filter(({ at }) => at.getTime() <= ms);
    // The day of the last reading is not over yet: what is known of it comes from the last two.
    const latest = daysOfRecord(built, [], known.slice(-2)).map(toDay).at(-1);
    return latest === undefined ? [] : [...allRead.filter(({ day }) => day < latest.day), latest];
  };
  return {
    key: plan.key,
    facts: factsOf(built, plan),
    runs: [...runsOf(course, 'membranes'), ...runsOf(course, 'cartridges')],
    logged: { ...rest, days: daysOfRecord(built, [...reportedCycles(course)], []).map(toDay) },
    readUntil: (ms) => ({ ...rest, days: daysReadUntil(ms) }),
  };
}

function factsOf(built: SkidAsBuilt, plan: SkidPlan): OutlookFacts {
  const { scheme, tmpFrom, timeZone, baselineLmhBar, commissionedOn, referenceC } = built;
  const commissioning = baselineLmhBar === null || commissionedOn === null ? null : { day: commissionedOn, permeabilityLmhBar: baselineLmhBar, referenceC };
  return {
    scheme,
    tmpFrom,
    timeZone,
    permeabilityLimitFraction: 0.7,
    cartridgeLimitKpa: plan.cartridge?.limitKpa ?? null,
    areaM2: plan.areaM2,
    serviceState: 'in service',
    lastReadingAt: null,
    baselines: baselines({ days: [], cleans: [], commissioning, referenceC }),
    dailyLoadM3: null,
    dailyLoadSd: null,
  };
}

function toDay({ day, filtrateM3, permeability, cartridgeDpKpa }: DailyCondition): OutlookDay {
  return { day, filtrateM3, permeability: permeability?.median ?? null, cartridgeDpKpa };
}

const cleanDays = ({ stops }: Course): string[] => stops.flatMap(({ why, fromMs }) => (why === 'CIP' ? [dayText(fromMs)] : []));

function setsOf({ plan, cartridgeRuns }: Course): RecordOfSkid['sets'] {
  const { cartridge, key } = plan;
  if (cartridge === null) return [];
  const reason = cartridge.early ? CHANGED_EARLY : CHANGED_AT_LIMIT;
  return cartridgeRuns.map(({ fromMs, toMs }, index) => ({
    positionId: `${key} housing`,
    partId: `${key} set ${index}`,
    fittedOn: dayText(fromMs),
    removedOn: toMs === null ? null : dayText(toMs),
    removalReason: toMs === null ? null : reason,
    itemId: cartridge.itemCode,
    setCount: cartridge.count,
  }));
}

/** Runs whose beginning the record holds, and whose limit it would have seen. */
function runsOf({ plan, period, ...course }: Course, of: 'membranes' | 'cartridges'): TrueRun[] {
  const [runs, clock] = of === 'membranes' ? [course.membraneRuns, course.membraneClock] : [course.cartridgeRuns, course.cartridgeClock];
  const subject = of === 'membranes' ? of : `${plan.key} housing`;
  return runs.flatMap(({ fromMs, toMs, fromLoad, lifeLoad }) => {
    const metMs = clock.when(fromLoad + lifeLoad);
    return fromMs < period.fromMs || metMs > period.untilMs ? [] : [{ subject, life: `${plan.key} ${of} ${dayText(fromMs)}`, fromMs, renewedMs: toMs, metMs }];
  });
}

function inStoredUnits(values: Readonly<Partial<Record<SignalCode, HandValue>>>): HandRow['values'] {
  return Object.fromEntries(
    Object.entries(values).map(([signal, { value, unit, smallestDivision }]) => {
      const { unit: stored } = SIGNALS[signal as SignalCode];
      const convert = (entered: number) => (unit === stored ? entered : fromStored(toStored(entered, unit), stored));
      return [signal, { value: convert(value), error: (convert(value + smallestDivision) - convert(value)) / 2 }];
    }),
  );
}
