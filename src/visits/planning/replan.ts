import { Injectable } from '@nestjs/common';
import { type Caller, Clock, Conflict, Database, type FieldProblem, faultIn, InvalidRequest, type KeyedRequest, KeyedWork, NotFound } from '../../app/index.js';
import { dayPlus, daysBetween } from '../../shared/day.js';
import { planChanges } from '../core/plan-facts/plan-changes.js';
import { type KnownSince, withChanges } from '../core/plan-facts/with-changes.js';
import { FindPlan } from './find-plan.js';
import { type FactsForPlan, PlanFactsReader } from './plan-facts-reader.js';
import { PlanList } from './plan-list.js';
import type { PlanView } from './plan-views.dto.js';
import { PlanWriter } from './plan-writer.repository.js';
import type { ReplanDto } from './plans.dto.js';
import { wasReplaced } from './plans.errors.js';
import { USUAL } from './plans.js';
import { findPlan, type StoredPlan } from './stored-plans.repository.js';
import { placesIn, workOfFound, workOfStored } from './work-of-plan.js';

/** Plans anew from a plan that is there, with what has become known since. The plan that it replaces stays as it was, also where the search fails. */
@Injectable()
export class Replan {
  constructor(
    private readonly database: Database,
    private readonly facts: PlanFactsReader,
    private readonly finder: FindPlan,
    private readonly keyed: KeyedWork,
    private readonly writer: PlanWriter,
    private readonly list: PlanList,
    private readonly clock: Clock,
  ) {}

  async replan(caller: Caller, key: KeyedRequest, planId: string, input: ReplanDto): Promise<PlanView> {
    const answered = await this.keyed.earlier<{ id: string }>(key);
    if (answered !== undefined) return this.list.read(answered.answer.id);
    const { seconds = USUAL.seconds, seed = USUAL.seed, keepHours = USUAL.keepHours } = input;
    const since = sinceOf(input);
    const plan = await findPlan(this.database.prisma, planId);
    if (plan === null) throw new NotFound('plan', planId);
    if (plan.replacedBy !== null) throw wasReplaced(plan.no, plan.replacedBy.no);
    const { firstDay, days } = this.daysOf(plan, input);
    this.finder.getReady();
    const read = await this.facts.read(firstDay, days, keepHours);
    refuseUnknown(read, since);
    const before = placesIn(plan.tours);
    const earlier = new Map([...before].map(([work, { people, day }]) => [work, { personIds: people.map(({ personId }) => personId), onDay: day }]));
    const facts: FactsForPlan = withChanges({ ...read, earlier }, since);
    const { lines, leftOut, ...found } = await this.finder.find(facts, seed, seconds, before);
    const changes = planChanges(workOfStored(plan), workOfFound({ ...found, lines, leftOut }, facts), since);
    const who = { madeAt: this.clock.now(), madeById: caller.id, madeBy: caller.name };
    const { peopleLeftOut, travelSaid } = facts;
    const how = { firstDay, days, seed, seconds, keepHours, replacesId: planId, asked: since, changes, peopleLeftOut, travelSaid };
    const anew = { plan: { ...who, ...how, ...found }, lines, leftOut };
    const { id, keys } = await this.writer.store(key, anew);
    return keys === null ? this.list.read(id) : this.list.justStored(keys, anew, facts, { no: plan.no });
  }

  /** To the last day of the plan, unless others are asked for. */
  private daysOf({ no, firstDay, days }: StoredPlan, input: ReplanDto): { firstDay: string; days: number } {
    const today = this.clock.now().toISOString().slice(0, 10);
    const [began, lastDay] = [firstDay, dayPlus(firstDay, days - 1)];
    const hasBegun = began < today;
    const from = input.firstDay ?? (hasBegun ? today : began);
    if (from < today) throw faultIn('firstDay', `${from} has passed: plan from ${today} on`);
    if (input.days !== undefined) return { firstDay: from, days: input.days };
    if (lastDay < from) throw new Conflict(`Plan ${no} ends on ${lastDay}: say for how many days to plan, or make a new plan`);
    return { firstDay: from, days: daysBetween(from, lastDay) + 1 };
  }
}

function sinceOf({ absences = [], longWork = [], lateParts = [], urgentIds = [] }: ReplanDto): KnownSince {
  for (const [at, { from, until }] of absences.entries()) if (until < from) throw faultIn(`absences/${at}/until`, `must not be before ${from}`);
  return {
    absences: absences.map(({ personId, from, until }) => ({ personId, from, until })),
    longWork: longWork.map(({ id, minutes }) => ({ id, minutes })),
    lateParts: lateParts.map(({ id, from }) => ({ id, from })),
    urgentIds,
  };
}

function refuseUnknown({ people, work, visits }: FactsForPlan, { absences, longWork, lateParts, urgentIds }: KnownSince): void {
  const known = new Set([...work, ...visits].map(({ id }) => id));
  const toPlace = new Set(work.map(({ id }) => id));
  const problems: FieldProblem[] = [];
  for (const [at, { personId }] of absences.entries()) {
    if (!people.some(({ id }) => id === personId))
      problems.push({ pointer: `#/absences/${at}/personId`, message: `of ${personId} planning knows neither home nor shifts: leave it out, or enter them` });
  }
  const unknown = 'there is no job that waits, due or visit with this id in these days: it may be done, dropped or computed anew. Read the plan again';
  for (const [at, { id }] of longWork.entries()) if (!known.has(id)) problems.push({ pointer: `#/longWork/${at}/id`, message: unknown });
  for (const [at, { id }] of lateParts.entries()) if (!known.has(id)) problems.push({ pointer: `#/lateParts/${at}/id`, message: unknown });
  for (const [at, id] of urgentIds.entries()) if (!toPlace.has(id)) problems.push({ pointer: `#/urgentIds/${at}`, message: unknown });
  if (problems.length > 0) throw new InvalidRequest('What has become known is about records that are not in these days', problems);
}
