import { Injectable } from '@nestjs/common';
import { type Caller, Clock, Conflict, Database, EditedMeanwhile, faultIn, given, NotFound, type Reader, viewOf } from '../app/index.js';
import { visitSpan } from './core/visit-span.js';
import { type Judged, JudgeVisit } from './judge-visit.js';
import { ReserveKit } from './reserve-kit.js';
import { toJudge, VisitList } from './visit-list.js';
import { peopleToGo } from './visit-people.js';
import { ConsequenceView, VisitCheckView, type VisitDetailView } from './visit-views.dto.js';
import { addChanges, editVisit, lockVisit, setPeople, type VisitChange } from './visit-writes.repository.js';
import type { VisitEditDto } from './visits.dto.js';
import { findVisit, type VisitWithAll } from './visits.repository.js';

/** Shifts a visit: to another day or time, to other people; and edits its notes. */
@Injectable()
export class ShiftVisit {
  constructor(
    private readonly database: Database,
    private readonly judge: JudgeVisit,
    private readonly list: VisitList,
    private readonly kit: ReserveKit,
    private readonly clock: Clock,
  ) {}

  shift(caller: Caller, id: string, version: number, change: VisitEditDto): Promise<VisitDetailView> {
    return this.database.write(async (tx) => {
      await this.within(tx, caller, id, version, change);
      return this.list.within(tx, caller, id);
    });
  }

  /**
   * Shifts a visit in a transaction of the caller's.
   *
   * @param breakOfPlan minutes of the break within it as a plan has it; left out: as the people who go have theirs
   */
  async within(tx: Reader, caller: Caller, id: string, version: number, change: VisitEditDto, breakOfPlan?: number): Promise<void> {
    const visit = await lockVisit(tx, id);
    if (visit === null) throw new NotFound('visit', id);
    if (visit.version !== version) throw new EditedMeanwhile('The visit was changed after you read it. Read it again, and make your change to that');
    checkState(visit, change);
    const moves = isMoved(visit, change);
    const isPromised = visit.state === 'promised';
    if (moves && isPromised && change.tellClient === undefined) {
      throw faultIn('tellClient', `the client was promised ${visit.onDay} at ${visit.startTime}: say why it is shifted, which the client reads`);
    }
    if (change.tellClient !== undefined && !(moves && isPromised))
      throw faultIn('tellClient', 'neither day nor time of a promised visit changes, so there is nothing to tell: leave it out');
    const people = change.personIds === undefined ? null : await peopleToGo(tx, change.personIds);
    const { minutes, breakMinutes } = await this.judged(tx, visit, change);
    await this.write(tx, caller, visit, change, { minutes: minutes ?? visit.minutes, breakMinutes: breakOfPlan ?? breakMinutes, people });
    await this.kit.follow(tx, id, caller.name);
  }

  /** What the change would bring, without making it. */
  async check(id: string, change: VisitEditDto): Promise<VisitCheckView> {
    const reader = this.database.prisma;
    const visit = await findVisit(reader, { clientId: null }, id);
    if (visit === null) throw new NotFound('visit', id);
    checkState(visit, change);
    if (change.personIds !== undefined) await peopleToGo(reader, change.personIds);
    const judged = await this.judged(reader, visit, change);
    const minutes = judged.minutes ?? visit.minutes;
    const { breakMinutes } = judged;
    const { fromMs, toMs } = visitSpan({ ...visit, ...given(change), minutes, breakMinutes });
    const consequences = judged.consequences.map((consequence) => viewOf(ConsequenceView, consequence));
    return viewOf(VisitCheckView, { minutes, breakMinutes, startsAt: new Date(fromMs), endsAt: new Date(toMs), consequences });
  }

  private judged(reader: Reader, visit: VisitWithAll, { onDay, startTime, personIds, minutes: asked }: VisitEditDto): Promise<Judged> {
    const keeps = asked === undefined && (visit.minutesGiven === true || personIds === undefined || visit.state === 'under way');
    const minutes = keeps ? visit.minutes : (asked ?? null);
    const changed = { ...toJudge(visit), ...given({ onDay, startTime, personIds }), minutes };
    return this.judge.judge(reader, changed, visit.state === 'promised' ? visit : null);
  }

  private async write(
    tx: Reader,
    caller: Caller,
    visit: VisitWithAll,
    change: VisitEditDto,
    { minutes, breakMinutes, people }: { minutes: number; breakMinutes: number; people: { id: string; name: string }[] | null },
  ): Promise<void> {
    const { onDay, startTime, note, noteToClient } = change;
    const minutesGiven = change.minutes === undefined ? undefined : change.minutes !== null;
    await editVisit(tx, visit.id, given({ onDay, startTime, note, noteToClient, minutes, breakMinutes, minutesGiven }));
    if (people !== null) await setPeople(tx, visit, people);
    await addChanges(tx, visit, { name: caller.name, at: this.clock.now() }, whatChanged(visit, change, minutes, people));
  }
}

const isMoved = (visit: VisitWithAll, { onDay, startTime }: VisitEditDto) =>
  (onDay ?? visit.onDay) !== visit.onDay || (startTime ?? visit.startTime) !== visit.startTime;

function checkState(visit: VisitWithAll, change: VisitEditDto): void {
  const { no, state } = visit;
  const { note: _note, noteToClient: _noteToClient, ...others } = given(change);
  const isOver = state === 'finished' || state === 'called off';
  if (isOver && Object.keys(others).length > 0) throw new Conflict(`Visit ${no} is ${state}: only its notes can change`);
  if (state === 'under way' && isMoved(visit, change))
    throw new Conflict(`Visit ${no} is under way: it is not shifted any more. Make another one for what is left`);
}

function whatChanged(visit: VisitWithAll, change: VisitEditDto, minutes: number, people: readonly { name: string }[] | null): VisitChange[] {
  const names = (of: readonly { name: string }[]) => of.map(({ name }) => name).join(', ');
  const { onDay = visit.onDay, startTime = visit.startTime, note = visit.note, noteToClient = visit.noteToClient, tellClient } = change;
  const told = tellClient === undefined ? {} : { note: tellClient, toClient: true };
  const changes: VisitChange[] = [];
  if (isMoved(visit, change)) changes.push({ what: 'time', from: `${visit.onDay} ${visit.startTime}`, to: `${onDay} ${startTime}`, ...told });
  if (people !== null && names(people) !== names(visit.people)) changes.push({ what: 'people', from: names(visit.people), to: names(people) });
  if (minutes !== visit.minutes) changes.push({ what: 'minutes', from: String(visit.minutes), to: String(minutes) });
  if (note !== visit.note || noteToClient !== visit.noteToClient) changes.push({ what: 'notes' });
  return changes;
}
