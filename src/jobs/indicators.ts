import { Injectable } from '@nestjs/common';
import { type Caller, Clock, faultIn, NotFound, type Reader, viewOf } from '../app/index.js';
import { dayPlus, daysBetween } from '../shared/day.js';
import { availability } from './core/indicators/availability.js';
import { backlogs, weeklyCrewHours } from './core/indicators/backlog.js';
import { COUNTED_IN_WORDS, downSpan, failedAt, isFailure } from './core/indicators/breakdown-fact.js';
import { doneInTime } from './core/indicators/done-in-time.js';
import type { Indicator } from './core/indicators/indicator.js';
import { meanTimeBetweenFailures } from './core/indicators/mean-time-between-failures.js';
import { meanRepairTime, meanTimeToRestoration } from './core/indicators/mean-times-to-repair.js';
import { preventiveShares } from './core/indicators/preventive-share.js';
import { requiredSpans } from './core/indicators/required-time.js';
import { earliest, hoursInBoth, type Span } from './core/indicators/spans.js';
import { firstVisitCompletion, promisesKept, timeAsPlanned, travelShare } from './core/indicators/visit-figures.js';
import { type IndicatorsQuery, IndicatorsView, IndicatorView, QuantityView } from './indicators.dto.js';
import { type IndicatorScope, IndicatorsRepository, type ScopedBreakdown, type ScopedSkid } from './indicators.repository.js';

const USUAL_DAYS = 365;
const LONGEST_DAYS = 36_525;

/** Figures of reliability and of work, for a skid, a client or the fleet. A client sees those of their skids, and none of the department's hours. */
@Injectable()
export class Indicators {
  constructor(
    private readonly repository: IndicatorsRepository,
    private readonly clock: Clock,
  ) {}

  read(caller: Caller, query: IndicatorsQuery): Promise<IndicatorsView> {
    const now = this.clock.now();
    const scope = scopeOf(query, now);
    return this.repository.readFor(caller, async (reader) => {
      const skids = await this.repository.skids(reader, scope);
      if (query.skidId !== undefined && skids.length === 0) throw new NotFound('skid', query.skidId);
      if (query.clientId !== undefined && !(await this.repository.clientExists(reader, query.clientId))) throw new NotFound('client', query.clientId);
      const indicators = [
        ...(await this.ofReliability(reader, scope, query, skids, now)),
        await this.repository.inTime(reader, scope, now).then(({ inTime, due }) => doneInTime(inTime, due)),
        ...(caller.role === 'client' ? [] : [...(await this.ofWork(reader, scope, query)), ...(await this.ofVisits(reader, scope, now))]),
      ];
      return viewOf(IndicatorsView, { from: scope.from, to: scope.to, skids: skids.length, indicators: indicators.map(toView) });
    });
  }

  private async ofReliability(reader: Reader, scope: IndicatorScope, query: IndicatorsQuery, skids: readonly ScopedSkid[], now: Date): Promise<Indicator[]> {
    const [breakdowns, filtrationHours] = [await this.repository.breakdowns(reader, scope), await this.repository.filtrationHours(reader, scope)];
    const failures = failuresOf(breakdowns, skids, query);
    const { requiredHours, downHours } = timesOf(skids, breakdowns, now);
    const unknownStops = breakdowns.filter((each) => isFailure(each, 'stops') && downSpan(each, now) === null).length;
    const counted = countedInWords(query);
    return [
      availability({ requiredHours, downHours, unknownStops }),
      meanTimeBetweenFailures('operating', filtrationHours, failures.length, counted),
      meanTimeBetweenFailures('in service', requiredHours, failures.length, counted),
      meanTimeToRestoration(failures),
      meanRepairTime(failures),
    ];
  }

  private async ofWork(reader: Reader, scope: IndicatorScope, { crewHours }: IndicatorsQuery): Promise<Indicator[]> {
    const [done, open] = [await this.repository.workDone(reader, scope), await this.repository.openWork(reader, scope)];
    return [...preventiveShares(done), ...backlogs(open, crewHours ?? weeklyCrewHours(open.technicians))];
  }

  /** What came of visits. */
  private async ofVisits(reader: Reader, scope: IndicatorScope, now: Date): Promise<Indicator[]> {
    const [{ atFirst, finished }, travel] = [await this.repository.firstVisits(reader, scope), await this.repository.travelTime(reader, scope)];
    const [{ kept, promised }, planned] = [await this.repository.promises(reader, scope, now), await this.repository.plannedTime(reader, scope)];
    return [firstVisitCompletion(atFirst, finished), travelShare(travel), promisesKept(kept, promised), ...timeAsPlanned(planned)];
  }
}

function scopeOf({ skidId, clientId, from: asked, to: until, positionId }: IndicatorsQuery, now: Date): IndicatorScope {
  const to = until ?? now.toISOString().slice(0, 10);
  const from = asked ?? dayPlus(to, 1 - USUAL_DAYS);
  const days = daysBetween(from, to) + 1;
  if (days < 1) throw faultIn('from', `must not lie after the last day ${to}; seen: ${from}`);
  if (days > LONGEST_DAYS) throw faultIn('from', `a period has 100 years at most; seen: ${days} days`);
  if (positionId !== undefined && skidId === undefined) throw faultIn('skidId', 'name the skid of the position too');
  return { skidId, clientId, from, to };
}

/** The failures that fall into the period at their site, as far as the query asks for them. */
function failuresOf(breakdowns: readonly ScopedBreakdown[], skids: readonly ScopedSkid[], { count, positionId, failureMode, mechanism }: IndicatorsQuery) {
  const periods = new Map(skids.map(({ id, fromAt, toAt }) => [id, { from: fromAt, to: toAt }]));
  return breakdowns.filter((each) => {
    const period = periods.get(each.skidId);
    const at = failedAt(each);
    if (period === undefined || at < period.from || at >= period.to || !isFailure(each, count)) return false;
    if (positionId !== undefined && each.positionId !== positionId) return false;
    return (failureMode === undefined || each.failureMode === failureMode) && (mechanism === undefined || each.mechanism === mechanism);
  });
}

/** Hours that were asked for until now, and the hours down within them. */
function timesOf(skids: readonly ScopedSkid[], breakdowns: readonly ScopedBreakdown[], now: Date): { requiredHours: number; downHours: number } {
  const downs = new Map<string, Span[]>();
  for (const each of breakdowns) {
    const span = isFailure(each, 'stops') ? downSpan(each, now) : null;
    if (span !== null) downs.set(each.skidId, [...(downs.get(each.skidId) ?? []), span]);
  }
  let requiredHours = 0;
  let downHours = 0;
  for (const { id, fromAt, toAt, changes, ...skid } of skids) {
    const period = { from: fromAt, to: earliest(toAt, now) };
    const required = requiredSpans({ ...skid, changes: changes.map(({ at, state }) => ({ at: new Date(at), state })) }, period);
    requiredHours += hoursInBoth(required, [period]);
    downHours += hoursInBoth(required, downs.get(id) ?? []);
  }
  return { requiredHours, downHours };
}

function countedInWords({ count, positionId, failureMode, mechanism }: IndicatorsQuery): string {
  const only = [
    ...(positionId === undefined ? [] : ['at one position']),
    ...(failureMode === undefined ? [] : [`of mode ${failureMode}`]),
    ...(mechanism === undefined ? [] : [`by mechanism ${mechanism}`]),
  ];
  return only.length === 0 ? COUNTED_IN_WORDS[count] : `${COUNTED_IN_WORDS[count]}, only those ${only.join(' and ')}`;
}

function toView({ numerator, denominator, remarks, ...indicator }: Indicator): IndicatorView {
  return viewOf(IndicatorView, {
    ...indicator,
    numerator: viewOf(QuantityView, numerator),
    denominator: viewOf(QuantityView, denominator),
    remarks: [...remarks],
  });
}
