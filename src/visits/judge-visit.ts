import { Injectable } from '@nestjs/common';
import { Clock, type Reader } from '../app/index.js';
import { breakInVisit, type VisitTimes } from './core/break-of-visit.js';
import { type Consequence, consequences, type PlannedTask, type Promised } from './core/consequences.js';
import { visitMinutes } from './core/visit-minutes.js';
import { localTime, visitSpan } from './core/visit-span.js';
import { breaksOf, jobsAfterOthers, otherVisitsOf, tasksToDo } from './planning.repository.js';
import { Travel } from './travel/travel.js';

/** A visit as it is, or as it would be. */
export interface VisitToJudge {
  readonly id: string;
  readonly siteId: string;
  readonly onDay: string;
  readonly startTime: string;
  readonly timeZone: string;
  /** Null: to be reckoned from its tasks */
  readonly minutes: number | null;
  readonly personIds: readonly string[];
}

export interface Judged {
  /** Null: it has no task to reckon from */
  readonly minutes: number | null;
  /** Of the break that lies within it */
  readonly breakMinutes: number;
  readonly consequences: readonly Consequence[];
}

/** What follows from a visit: how long it takes, and what speaks against it. */
@Injectable()
export class JudgeVisit {
  constructor(
    private readonly clock: Clock,
    private readonly travel: Travel,
  ) {}

  async judge(reader: Reader, visit: VisitToJudge, promised: Promised | null): Promise<Judged> {
    const tasks = await tasksToDo(reader, visit.id);
    const minutes = visit.minutes ?? reckoned(tasks, visit.personIds.length);
    if (minutes === null) return { minutes, breakMinutes: 0, consequences: [] };
    const { id, siteId, onDay, startTime, timeZone, personIds } = visit;
    const rows = await otherVisitsOf(reader, personIds, onDay, id);
    const ways = await this.travel.waysOf(
      reader,
      siteId,
      rows.map((other) => other.siteId),
    );
    const others = rows.map((other) => {
      const found = ways.get(other.siteId);
      return { ...other, span: visitSpan(other), ...(found === undefined ? {} : { ways: found }) };
    });
    const today = localTime(this.clock.now().getTime(), timeZone).day;
    const breaks = await breaksOf(reader, personIds);
    const breakMinutes = breakInVisit({ startTime, minutes }, breaks);
    const asPlanned = { onDay, startTime, timeZone, minutes, breakMinutes, people: personIds.length, tasks };
    const order = await jobsAfterOthers(reader, id);
    return { minutes, breakMinutes, consequences: consequences(asPlanned, others, promised, today, breaks, order) };
  }

  /** Minutes of the break within it, of those who go. */
  async breakIn(reader: Reader, visit: VisitTimes, personIds: readonly string[]): Promise<number> {
    return breakInVisit(visit, await breaksOf(reader, personIds));
  }

  /** How long it takes by the usual times; null where it has no task. */
  async minutesOf(reader: Reader, visitId: string, people: number): Promise<number | null> {
    return reckoned(await tasksToDo(reader, visitId), people);
  }
}

function reckoned(tasks: readonly PlannedTask[], people: number): number | null {
  return tasks.length === 0 ? null : Math.max(1, visitMinutes(tasks, people));
}
