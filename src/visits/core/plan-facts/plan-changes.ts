import { type Day, dayInWords } from '../../../shared/day.js';
import { workKey } from './facts.js';
import type { KnownSince } from './with-changes.js';

/** Where a plan has a piece of work. */
export interface PlaceInPlan {
  readonly day: Day;
  readonly startAt: string;
  readonly people: readonly { readonly personId: string; readonly name: string }[];
}

export interface WorkInPlan {
  readonly kind: 'job' | 'due' | 'visit';
  readonly id: string;
  readonly text: string;
  /** Null: left out */
  readonly place: PlaceInPlan | null;
  /** Why it is left out */
  readonly reason: string;
  readonly urgent: boolean;
  readonly promised: boolean;
  /** Of a visit that is left out: where it stands */
  readonly stands?: PlaceInPlan;
}

export interface PlanChange {
  readonly kind: 'job' | 'due' | 'visit';
  readonly id: string;
  readonly text: string;
  readonly what: 'new' | 'moved' | 'other time' | 'left out' | 'promise not kept' | 'gone' | 'unchanged';
  readonly from: PlaceInPlan | null;
  readonly to: PlaceInPlan | null;
  readonly why: string;
}

/** What differs between two versions of a plan, piece by piece, and why. What both leave out is no change, unless it was promised. */
export function planChanges(before: readonly WorkInPlan[], after: readonly WorkInPlan[], since: KnownSince): PlanChange[] {
  const earlier = new Map(before.map((item) => [workKey(item), item]));
  const later = new Set(after.map(workKey));
  const urgent = after.filter((item) => item.urgent && item.place !== null && (earlier.get(workKey(item))?.place ?? null) === null);
  const changes = after.flatMap((item): PlanChange[] => {
    const was = earlier.get(workKey(item));
    const { kind, id, text, place: to } = item;
    const from = was?.place ?? null;
    const change = (what: PlanChange['what'], why: string) => [{ kind, id, text, what, from, to, why }];
    if (to === null) {
      if (item.promised) return promiseNotKept(item, since);
      return from === null ? [] : change('left out', causeOf(item, from, since) ?? item.reason);
    }
    if (from === null) return change('new', was === undefined ? 'was not known to the earlier plan' : 'was left out of the earlier plan, and has a place now');
    if (from.day === to.day && samePeople(from, to)) {
      return from.startAt === to.startAt ? change('unchanged', '') : change('other time', 'keeps its day and people; the tour around it has changed');
    }
    return change('moved', causeOf(item, from, since) ?? roomFor(from, urgent) ?? 'costs less there, now that the tours around it have changed');
  });
  const gone = before.filter((item) => item.place !== null && !later.has(workKey(item)));
  return [...changes, ...gone.map(({ kind, id, text, place: from }) => ({ kind, id, text, what: 'gone' as const, from, to: null, why: GONE }))];
}

function promiseNotKept(item: WorkInPlan, since: KnownSince): PlanChange[] {
  const { kind, id, text, reason, stands = null } = item;
  const cause = stands === null ? null : causeOf(item, stands, since);
  return [
    {
      kind,
      id,
      text,
      what: 'promise not kept',
      from: stands,
      to: null,
      why: cause === null ? reason : `${cause}. It stands as it is until somebody shifts it`,
    },
  ];
}

const GONE = 'is no longer to be planned: done, dropped, or in a visit elsewhere';

const ids = ({ people }: PlaceInPlan) =>
  people
    .map(({ personId }) => personId)
    .toSorted()
    .join();
const samePeople = (one: PlaceInPlan, two: PlaceInPlan) => ids(one) === ids(two);

function causeOf({ id }: WorkInPlan, { day, people }: PlaceInPlan, { absences, longWork, lateParts }: KnownSince): string | null {
  const away = people.find(({ personId }) => absences.some((absence) => absence.personId === personId && day >= absence.from && day <= absence.until));
  if (away !== undefined) return `${away.name} is away on ${dayInWords(day, day)}`;
  const parts = lateParts.find((late) => late.id === id && late.from > day);
  if (parts !== undefined) return `its parts are there from ${dayInWords(parts.from, day)} on`;
  const long = longWork.find((work) => work.id === id);
  return long === undefined ? null : `takes ${long.minutes} minutes now`;
}

function roomFor({ day, people }: PlaceInPlan, urgent: readonly WorkInPlan[]): string | null {
  const found = urgent.find(({ place }) => place?.day === day && place.people.some(({ personId }) => people.some((person) => person.personId === personId)));
  return found === undefined ? null : `makes room for ${found.text}, which is urgent`;
}
