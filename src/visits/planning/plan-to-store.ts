import { group } from 'd3-array';
import { dayPlus } from '../../shared/day.js';
import { costByKind } from '../core/plan-facts/cost-by-kind.js';
import type { InputFromFacts } from '../core/plan-facts/input-from-facts.js';
import { overtimeInWords, overtimeOf, reasonOfLine, whyOfLine } from '../core/plan-facts/line-reason.js';
import type { CheckedPlan } from '../core/plan-facts/make-plan.js';
import { type LineOfPlan, linesOf } from '../core/plan-facts/plan-lines.js';
import { moneyFor, type PlanRates } from '../core/plan-facts/plan-prices.js';
import { reasonInWords } from '../core/plan-facts/reason-in-words.js';
import { isOutInBreak } from '../core/planner/breaks/usual-break.js';
import { isAble } from '../core/planner/build-problem.js';
import type { DayTour, WorkToPlan } from '../core/planner/plan-input.js';
import { TRAVEL_SOURCES } from '../core/travel/travel-table.js';
import type { FactsForPlan } from './plan-facts-reader.js';
import type { PlanVerdict, StoredCost, StoredPerson, StoredTour } from './stored-plan.js';
import type { LeftOutColumns, LineColumns } from './stored-plans.repository.js';

/** What was found, in the words in which it is stored. */
export interface FoundPlan {
  readonly verdict: PlanVerdict;
  readonly costs: StoredCost[];
  /** Null: costs count in hours */
  readonly rates: PlanRates | null;
  readonly tours: StoredTour[];
  readonly lines: LineColumns[];
  readonly leftOut: LeftOutColumns[];
}

export function planToStore({ plan, reasons }: CheckedPlan, made: InputFromFacts, facts: FactsForPlan): FoundPlan {
  const { input, work, dates, cannot } = made;
  const lines = linesOf(input, work, plan);
  const ofDay = group(lines, ({ day }) => day);
  const siteNames = new Map(facts.sites.map(({ id, name }) => [id, name]));
  const { rates = null } = facts;
  const notPlaced = plan.leftOut.flatMap((at, place): Omit<LeftOutColumns, 'place'>[] => {
    const [item, planned, reason] = [work[at], input.work[at], reasons[place]];
    if (item === undefined || planned === undefined || reason === undefined) return [];
    const { id: workId, kind, text, siteId } = item;
    const [urgent, promised] = item.kind === 'visit' ? [false, item.promised] : [item.urgent, false];
    const inWords = reasonInWords(reason, planned, item.kind === 'visit' ? [] : item.partsInVans);
    const had = reason === 'overtime limit' ? overtimeOfAble(made, planned).map(overtimeInWords) : [];
    return [{ workId, kind, text, siteId, urgent, promised, reason: [inWords, ...had].join('. ') }];
  });
  const leftOut = [...cannot.map(({ id: workId, ...item }) => ({ ...item, workId })), ...notPlaced].map((item, place) => ({ ...item, place }));
  return {
    verdict: verdictOf(leftOut),
    costs: costByKind(input, dates, facts.firstDay, plan).map(({ kind, minutes, count }) => {
      return { kind, minutes: Math.round(minutes), count, money: moneyFor(rates, minutes) };
    }),
    rates,
    tours: plan.tours.map((tour) => tourOf(tour, made, facts, siteNames)),
    lines: lines.map((line, place) => ({ ...lineOf(line, ofDay.get(line.day) ?? [], made, facts), place })),
    leftOut,
  };
}

/** Those who could do the work but for the overtime that they have before the plan begins. */
const overtimeOfAble = ({ input, overtimeBefore }: InputFromFacts, { skills }: WorkToPlan) =>
  overtimeOf(
    input.people.flatMap((person, at) => (isAble(person, skills, 0) ? [at] : [])),
    input,
    overtimeBefore,
  );

function verdictOf(leftOut: readonly Pick<LeftOutColumns, 'promised'>[]): PlanVerdict {
  if (leftOut.some(({ promised }) => promised)) return 'promise not kept';
  return leftOut.length > 0 ? 'work left out' : 'whole';
}

function lineOf(line: LineOfPlan, sameDay: readonly LineOfPlan[], made: InputFromFacts, facts: FactsForPlan): Omit<LineColumns, 'place'> {
  const { input, work } = made;
  const day = dayPlus(facts.firstDay, line.day);
  const [startTime, endTime] = [clockOf(line.start), clockOf(line.end)];
  const people = line.people.map((at): StoredPerson => ({ personId: facts.people[at]?.id ?? '', name: facts.people[at]?.name ?? '' }));
  const items = line.work.flatMap((at) => {
    const [item, planned] = [work[at], input.work[at]];
    return item === undefined || planned === undefined ? [] : [{ id: item.id, kind: item.kind, text: item.text, minutes: planned.minutes }];
  });
  const visit = items.find(({ kind }) => kind === 'visit');
  const there = visit && facts.visitsThere.find(({ id }) => id === visit.id);
  const was =
    there === undefined
      ? null
      : {
          day: there.onDay,
          startAt: there.startTime,
          people: there.personIds.map((personId, at) => ({ personId, name: there.personNames[at] ?? '' })),
        };
  const same = was !== null && was.day === day && was.startAt === startTime && idsOf(was.people) === idsOf(people);
  const why = whyOfLine(made, line, sameDay);
  return {
    change: was === null ? 'new' : same ? 'stays' : 'shift',
    visitId: there?.id ?? null,
    visitVersion: there?.version ?? null,
    promised: there?.state === 'promised',
    was,
    siteId: facts.sites[line.site]?.id ?? '',
    onDay: day,
    startTime,
    endTime,
    travelMinutes: Math.round(line.travelMinutes),
    workMinutes: Math.round(line.end - line.start - line.breakMinutes),
    people,
    work: items,
    reason: reasonOfLine(why, day, facts.rates ?? null),
    why: { ...why, travelSource: TRAVEL_SOURCES[facts.travel?.sources?.[line.way] ?? 0] ?? TRAVEL_SOURCES[0] },
  };
}

const idsOf = (people: readonly StoredPerson[]) =>
  people
    .map(({ personId }) => personId)
    .toSorted()
    .join();

function tourOf(tour: DayTour, { input, work }: InputFromFacts, { firstDay, people, sites }: FactsForPlan, siteNames: ReadonlyMap<string, string>): StoredTour {
  const { person, day, startPlace, endPlace, leave, back, pause, stops } = tour;
  const breakRule = input.people[person]?.breakRule;
  const near = (place: number) => sites[place - people.length]?.name ?? null;
  return {
    personId: people[person]?.id ?? '',
    personName: people[person]?.name ?? '',
    day: dayPlus(firstDay, day),
    startsNear: near(startPlace),
    endsNear: near(endPlace),
    leaveAt: clockOf(leave),
    backAt: clockOf(back),
    breakLeftOut: pause === null && breakRule !== undefined && isOutInBreak(breakRule, tour),
    breakAt: pause && { from: clockOf(pause.from), until: clockOf(pause.until) },
    onCall: input.people[person]?.onCall?.[day] ?? false,
    stops: stops.flatMap(({ work: at, arrive, start, end }) => {
      const item = work[at];
      if (item === undefined) return [];
      const { id, kind, text, siteId } = item;
      const siteName = siteNames.get(siteId) ?? '';
      return [{ id, kind, text, siteId, siteName, arriveAt: clockOf(arrive), startAt: clockOf(start), endAt: clockOf(end) }];
    }),
  };
}

function clockOf(minutes: number): string {
  const whole = Math.round(minutes);
  return `${String(Math.floor(whole / 60)).padStart(2, '0')}:${String(whole % 60).padStart(2, '0')}`;
}
