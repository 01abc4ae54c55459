import { Injectable } from '@nestjs/common';
import { type Caller, NotFound, viewOf } from '../app/index.js';
import type { Baseline, Baselines } from '../condition/core/baseline.js';
import { dayInWords, dayPlus, daysBetween } from '../shared/day.js';
import { doubtsOfOutlook } from './core/doubts-of-outlook.js';
import { ForecastPointView, LeftOutView, OutlookView, type Quantity, TrendEventView, TrendView } from './outlook.dto.js';
import { type OutlookRow, type TrendDayRow, TrendRepository, type TrendRows } from './trend.repository.js';

/** What each drawing shows of a day, and how its limit is called. */
const DRAWINGS = {
  permeability: {
    limitKind: 'permeability',
    title: 'Permeability at reference temperature',
    unit: 'L/m²·h·bar',
    limitLabel: 'Cleaning limit',
    of: (day: TrendDayRow) => day.permeability,
  },
  'cartridge-dp': {
    limitKind: 'cartridge dP',
    title: 'Cartridge pressure drop at reference flow',
    unit: 'kPa',
    limitLabel: 'Change limit',
    of: (day: TrendDayRow) => day.cartridgeDpKpa,
  },
} as const;

/** Daily series with limit, baseline and forecast, ready to be drawn. */
@Injectable()
export class Trends {
  constructor(private readonly repository: TrendRepository) {}

  async read(caller: Caller, skidId: string, quantity: Quantity): Promise<TrendView> {
    const rows = await this.repository.read(caller, skidId, DRAWINGS[quantity].limitKind);
    if (rows === undefined) throw new NotFound('skid', skidId);
    return toView(quantity, rows);
  }
}

function toView(quantity: Quantity, rows: TrendRows): TrendView {
  const { skid, days, events, outlook } = rows;
  const { title, unit, limitLabel, of } = DRAWINGS[quantity];
  const baseline = quantity === 'permeability' ? baselineOf(skid.baselines) : null;
  const cleaningLimit = baseline === null ? null : baseline.permeabilityLmhBar * skid.permeabilityLimitFraction;
  const daysByHand = days.filter((day) => day.byHand && of(day) !== null).length;
  return viewOf(TrendView, {
    quantity,
    title: titleOf(title, quantity, skid),
    unit,
    firstDay: days[0]?.day ?? null,
    values: daily(days, of),
    limit: quantity === 'permeability' ? cleaningLimit : skid.cartridgeLimitKpa,
    limitLabel,
    baseline: baseline?.permeabilityLmhBar ?? null,
    baselineFrom: baseline?.from ?? null,
    baselineAssumed: baseline?.assumed ?? false,
    // A skid that does not run brings no limit nearer: what was forecast before it stopped holds no longer.
    outlook: outlook === undefined || skid.serviceState !== 'in service' ? null : toOutlookView(outlook),
    events: events.map(({ at, label }) => viewOf(TrendEventView, { at, label })),
    leftOut: leftOut(days),
    daysByHand,
    remarks: [...remarks(quantity, baseline, daysByHand, rows.hand), ...pauseOf(skid), ...doubtsOf(quantity, rows)],
  });
}

/** A recovery clean is judged by what the last one gave back. */
function baselineOf(stored: Baselines | null): Baseline | null {
  return stored?.lastCip.kind === 'baseline' ? stored.lastCip : null;
}

function titleOf(title: string, quantity: Quantity, skid: TrendRows['skid']): string {
  if (quantity === 'permeability') return title.replace('reference temperature', `${skid.referenceC} °C`);
  return skid.cartridgeReferenceFlowM3h === null ? title : title.replace('reference flow', `${skid.cartridgeReferenceFlowM3h} m³/h`);
}

/** One value a day from the first day to the last, null where there is none. */
function daily(days: readonly TrendDayRow[], of: (day: TrendDayRow) => number | null): (number | null)[] {
  const [first] = days;
  const last = days.at(-1);
  if (first === undefined || last === undefined) return [];
  const values: (number | null)[] = Array.from({ length: daysBetween(first.day, last.day) + 1 }, () => null);
  for (const day of days) values[daysBetween(first.day, day.day)] = of(day);
  return values;
}

function leftOut(days: readonly TrendDayRow[]): LeftOutView[] {
  const counts = new Map<string, number>();
  for (const day of days) for (const [reason, cycles] of Object.entries(day.leftOut)) counts.set(reason, (counts.get(reason) ?? 0) + cycles);
  return [...counts].sort(([, a], [, b]) => b - a).map(([reason, cycles]) => viewOf(LeftOutView, { reason, cycles }));
}

function remarks(quantity: Quantity, baseline: Baseline | null, daysByHand: number, hand: TrendRows['hand']): string[] {
  const lines: string[] = [];
  if (quantity === 'permeability' && baseline === null) lines.push('There is no baseline yet, so no cleaning limit is drawn.');
  if (baseline?.assumed) lines.push(`The baseline is assumed (${baseline.from}), since no value was recorded when the skid was new.`);
  if (daysByHand > 0) lines.push(`${daysByHand} values were read from gauges by a person: single moments, with a wider error than medians of a cycle.`);
  if (quantity === 'permeability' && hand.readings > 0)
    lines.push(
      `${hand.withMinutes} of ${hand.readings} readings by hand say the minutes since the backwash: those at the usual point of the cycle compare as they are, all others carry a wider range.`,
    );
  return lines;
}

function pauseOf({ serviceState, stateSince }: TrendRows['skid']): string[] {
  if (serviceState === 'in service') return [];
  const since = stateSince === null ? '' : ` since ${dayInWords(stateSince, '')}`;
  return [`The skid is ${serviceState}${since}: forecasts pause until it is in service again.`];
}

/** Of the whole drawing, not only of what the forecast was made from. */
function doubtsOf(quantity: Quantity, { skid, days, doubts }: TrendRows): string[] {
  const shown = days.filter((day) => DRAWINGS[quantity].of(day) !== null);
  const [firstDay, lastDay] = [shown[0]?.day ?? null, shown.at(-1)?.day ?? null];
  return doubtsOfOutlook(doubts, { limit: DRAWINGS[quantity].limitKind, firstDay, lastDay, basis: skid });
}

function toOutlookView(row: OutlookRow): OutlookView {
  const dayAfter = (days: number | null): string | null => (days === null ? null : dayPlus(row.originDay, Math.round(days)));
  const { kind, originAt, computedAt, model, modelVersion, shareBeyond, reason, dataUsed } = row;
  return viewOf(OutlookView, {
    kind,
    originAt,
    computedAt,
    model,
    modelVersion,
    p10On: dayAfter(row.p10Days),
    p50On: dayAfter(row.p50Days),
    p90On: dayAfter(row.p90Days),
    shareBeyond,
    reason,
    dataUsed,
    path: row.path.map(({ dayAhead, low, mid, high }) => viewOf(ForecastPointView, { day: dayAfter(dayAhead) ?? row.originDay, low, mid, high })),
  });
}
