import { Injectable } from '@nestjs/common';
import { type Caller, Clock, Conflict, DomainError, type FieldProblem, type KeyedRequest, KeyedWork, NotFound, type Reader } from '../../app/index.js';
import { dayInWords } from '../../shared/day.js';
import { minutesOfDay } from '../core/plan-facts/local-time.js';
import { PlanVisit } from '../plan-visit.js';
import { ShiftVisit } from '../shift-visit.js';
import { holdJobs, lockVisit } from '../visit-writes.repository.js';
import { PlanList } from './plan-list.js';
import type { PlanView } from './plan-views.dto.js';
import { PlanLinesRefused } from './plans.errors.js';
import type { StoredWas, StoredWork } from './stored-plan.js';
import { addAcceptances, findPlan, holdPlan, type StoredPlan } from './stored-plans.repository.js';

type Line = StoredPlan['lines'][number];

/** Makes and shifts the visits of a plan as everybody else does, line by line, in one transaction. */
@Injectable()
export class AcceptPlan {
  constructor(
    private readonly keyed: KeyedWork,
    private readonly makeVisit: PlanVisit,
    private readonly shiftVisit: ShiftVisit,
    private readonly list: PlanList,
    private readonly clock: Clock,
  ) {}

  async accept(caller: Caller, key: KeyedRequest, planId: string, lineIds: readonly string[] | null): Promise<PlanView> {
    await this.keyed.run(key, async (tx) => {
      await holdPlan(tx, planId);
      const plan = await findPlan(tx, planId);
      if (plan === null) throw new NotFound('plan', planId);
      const { no, replacedBy } = plan;
      if (replacedBy !== null) throw new Conflict(`Plan ${no} was replaced by plan ${replacedBy.no}: accept lines of that one`);
      const chosen = lineIds?.map((id, at) => ({ id, pointer: `#/lineIds/${at}`, line: plan.lines.find((line) => line.id === id) }));
      const all = plan.lines.filter(({ change }) => change !== 'stays').map((line) => ({ id: line.id, pointer: '#/lineIds', line }));
      return { accepted: await this.acceptLines(tx, caller, plan, chosen ?? all) };
    });
    return this.list.read(planId);
  }

  /** Answers how many were accepted; refuses all where one cannot be. */
  private async acceptLines(
    tx: Reader,
    caller: Caller,
    plan: StoredPlan,
    chosen: readonly { id: string; pointer: string; line: Line | undefined }[],
  ): Promise<number> {
    const today = this.clock.now().toISOString().slice(0, 10);
    const problems: FieldProblem[] = [];
    const open: { pointer: string; line: Line }[] = [];
    for (const { id, pointer, line } of chosen) {
      if (line === undefined) problems.push({ pointer, message: `plan ${plan.no} has no line ${id}` });
      else if (line.change === 'stays') problems.push({ pointer, message: `visit ${line.visit?.no} stays where it is: there is nothing to accept` });
      else if (line.onDay < today) problems.push({ pointer, message: `${inWords(line)}: the day has passed. Plan anew` });
      else if (line.acceptance === null) open.push({ pointer, line });
    }
    // Whoever changes a job locks it before its visit: so the jobs of all lines come first, then new visits, then those that are there.
    await holdJobs(
      tx,
      open.flatMap(({ line }) => idsOf(line, 'job')),
    );
    open.sort((one, two) => (one.line.visitId ?? '').localeCompare(two.line.visitId ?? '') || one.line.place - two.line.place);
    const accepted: { lineId: string; visitId: string }[] = [];
    for (const { pointer, line } of open) {
      try {
        accepted.push({
          lineId: line.id,
          visitId: line.visitId === null || line.was === null ? await this.make(tx, caller, line) : await this.shift(tx, caller, line, line.visitId, line.was),
        });
      } catch (error) {
        if (!(error instanceof DomainError)) throw error;
        const said = error.fields.length === 0 ? error.message : error.fields.map(({ message }) => message).join('; ');
        problems.push({ pointer, message: `${inWords(line)}: ${said}` });
      }
    }
    if (problems.length > 0) {
      const others = open.length > problems.length ? ' Nothing was accepted: send the others without these lines, or plan anew' : ' Plan anew';
      throw new PlanLinesRefused(`Lines of plan ${plan.no} cannot be accepted.${others}`, problems);
    }
    await addAcceptances(tx, accepted, { id: caller.id, name: caller.name, at: this.clock.now() });
    return accepted.length;
  }

  private make(tx: Reader, caller: Caller, line: Line): Promise<string> {
    const { siteId, startTime } = line;
    const [jobIds, dueIds] = [idsOf(line, 'job'), idsOf(line, 'due')];
    return this.makeVisit.within(
      tx,
      caller,
      {
        siteId,
        onDay: line.onDay,
        startTime,
        personIds: line.people.map(({ personId }) => personId),
        jobIds,
        dueIds,
      },
      breakOf(line),
    );
  }

  private async shift(tx: Reader, caller: Caller, line: Line, visitId: string, was: StoredWas): Promise<string> {
    const visit = await lockVisit(tx, visitId);
    if (visit === null) throw new NotFound('visit', visitId);
    const { people, onDay, startTime } = line;
    if (visit.version !== line.visitVersion) {
      const then = `${dayInWords(was.day, was.day)} ${was.startAt} with ${names(was.people)} (version ${line.visitVersion})`;
      const now = `${dayInWords(visit.onDay, visit.onDay)} ${visit.startTime} with ${names(visit.people)} (version ${visit.version}, ${visit.state})`;
      throw new Conflict(`visit ${visit.no} was changed since: the plan knew ${then}, and now it is ${now}. It stays as it is`);
    }
    const sent = people.map(({ personId }) => personId);
    const same = sent.length === visit.people.length && visit.people.every(({ personId }) => sent.includes(personId));
    const change = {
      ...(onDay === visit.onDay ? {} : { onDay }),
      ...(startTime === visit.startTime ? {} : { startTime }),
      ...(same ? {} : { personIds: sent }),
    };
    await this.shiftVisit.within(tx, caller, visitId, visit.version, change, breakOf(line));
    return visitId;
  }
}

const breakOf = ({ startTime, endTime, workMinutes }: Line) => Math.max(0, minutesOfDay(endTime) - minutesOfDay(startTime) - workMinutes);
const names = (people: readonly { readonly name: string }[]) => people.map(({ name }) => name).join(', ');
const idsOf = ({ work }: Line, kind: StoredWork['kind']) => work.flatMap((item) => (item.kind === kind ? [item.id] : []));
const inWords = ({ site, onDay, startTime }: Line) => `${site.name}, ${dayInWords(onDay, onDay)} ${startTime}`;
