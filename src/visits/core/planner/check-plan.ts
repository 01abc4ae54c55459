import { isAble } from './build-problem.js';
import type { BreakRule, DayTour, PlanInput, Span, VisitPlan, WorkToPlan } from './plan-input.js';

const ROUNDING = 1e-6;
const DAY_MINUTES = 24 * 60;

export interface PlanFault {
  readonly person: number | null;
  readonly day: number | null;
  readonly work: number | null;
  readonly text: string;
}

/**
 * Says what a plan breaks: shifts, breaks, rest, overtime, access, ferries, notice, inductions, ways, skills, days, parts, order, promises, nights, work twice or half. It reads the input and the plan and nothing that the search has reckoned;
 * no plan is shown or published with a fault.
 */
export function checkPlan(input: PlanInput, plan: VisitPlan): PlanFault[] {
  return [
    ...plan.tours.flatMap((tour) => faultsOfTour(input, tour)),
    ...faultsOfNights(input, plan.tours),
    ...faultsOfHours(input, plan.tours),
    ...faultsOfWork(input, plan),
    ...faultsOfOrder(input, plan),
  ];
}

function faultsOfTour(input: PlanInput, tour: DayTour): PlanFault[] {
  const { people, sites, work, travel } = input;
  const places = people.length + sites.length;
  const person = people[tour.person];
  const shift = person?.shifts[tour.day] ?? null;
  const faults: PlanFault[] = [];
  const fault = (text: string, at: number | null = null) => faults.push({ person: tour.person, day: tour.day, work: at, text });
  if (person === undefined || shift === null) {
    fault('does not work on that day');
    return faults;
  }
  for (const text of faultsOfBreak(input, tour)) fault(text);
  const working = (from: number, until: number) => until - from - overlap(tour.pause, from, until);
  if (tour.leave < shift.from - ROUNDING) fault('leaves before the shift begins');
  if (tour.back > shift.until + ROUNDING) fault('is back after the shift ends');
  const isPromised = (at: number | undefined) => at !== undefined && work[at]?.promised !== null;
  const sleepsByPromise = (place: number, day: number) =>
    work.some(({ site, promised }) => people.length + site === place && promised?.day === day && promised.people.includes(tour.person));
  /** Whether any boat from one place, and any to the other, leave the way its time between two moments. */
  const isRidden = (from: number, to: number, leave: number, arrive: number) => {
    const [there, here] = [sites[from - people.length]?.ferry, sites[to - people.length]?.ferry];
    if (there === undefined && here === undefined) return true;
    if (from === tour.startPlace && leave === tour.leave && sleepsByPromise(from, tour.day - 1)) return true;
    if (to === tour.endPlace && arrive === tour.back && sleepsByPromise(to, tour.day + 1)) return true;
    const departures = there?.departures ?? [leave];
    const landings = here?.landings ?? [arrive];
    const way = travel.minutes[from * places + to] as number;
    return departures.some((out) => out >= leave - ROUNDING && landings.some((lands) => lands <= arrive + ROUNDING && working(out, lands) >= way - ROUNDING));
  };
  let before: number | undefined;
  let place = tour.startPlace;
  let time = tour.leave;
  for (const stop of tour.stops) {
    const item = work[stop.work];
    if (item === undefined) {
      fault('goes to work that is not there', stop.work);
      continue;
    }
    const there = people.length + item.site;
    const way = travel.minutes[place * places + there] as number;
    if (working(time, stop.start) < way - ROUNDING) fault('begins before the arrival', stop.work);
    else if (place !== there && !isPromised(before) && !isPromised(stop.work) && !isRidden(place, there, time, stop.start))
      fault('finds no boat there in time', stop.work);
    before = stop.work;
    if (Math.abs(working(stop.start, stop.end) - item.minutes) > ROUNDING) fault('does not take the time of the work', stop.work);
    const open = sites[item.site]?.open[tour.day] ?? [];
    const isPromise = item.promised !== null;
    if (!isPromise && !open.some(({ from, until }) => stop.start >= from - ROUNDING && stop.end <= until + ROUNDING))
      fault('is not let in at that time', stop.work);
    if (!Number.isFinite(item.dayCost[tour.day] as number)) fault('is not to be done on that day', stop.work);
    if (item.promised === null && comesUnannounced(item, tour.day)) fault('comes before the notice that the site wants', stop.work);
    if (item.promised === null && (item.entry ?? []).some((name) => !holds(person, name, tour.day))) fault('has no induction for the site', stop.work);
    time = stop.end;
    place = there;
  }
  if (working(time, tour.back) < (travel.minutes[place * places + tour.endPlace] as number) - ROUNDING) fault('is back sooner than the way takes');
  else if (place !== tour.endPlace && !isPromised(before) && !isRidden(place, tour.endPlace, time, tour.back)) fault('finds no boat back in time');
  return faults;
}

const overlap = (pause: Span | null, from: number, until: number) =>
  pause === null ? 0 : Math.max(0, Math.min(until, pause.until) - Math.max(from, pause.from));

/** Who is out in the time for a break has one, as long as it must be; only what was promised may leave no room for it. */
function faultsOfBreak(input: PlanInput, tour: DayTour): string[] {
  const rule = input.people[tour.person]?.breakRule;
  const { pause, leave, back } = tour;
  if (rule === undefined) return pause === null ? [] : ['has a break that nobody asked for'];
  if (pause !== null) {
    if (Math.abs(pause.until - pause.from - rule.minutes) > ROUNDING) return ['has a break of another length'];
    if (pause.from < rule.from - ROUNDING || pause.until > rule.until + ROUNDING) return ['has its break at another time of the day'];
    return pause.from < leave - ROUNDING || pause.until > back + ROUNDING ? ['has its break outside of the tour'] : [];
  }
  const isOut = leave < rule.from + rule.minutes - ROUNDING && back > rule.until - rule.minutes + ROUNDING;
  return isOut && promisesLeaveRoom(input, tour, rule) ? ['has no break'] : [];
}

/** Whether there is any minute at which a break keeps all promises of the day and the ways between them, from home to home. */
function promisesLeaveRoom({ people, sites, work, travel }: PlanInput, { person, day }: DayTour, rule: BreakRule): boolean {
  const places = people.length + sites.length;
  const shift = people[person]?.shifts[day];
  if (shift === null || shift === undefined) return false;
  const promised = work
    .filter((item) => item.promised?.day === day && item.promised.people.includes(person))
    .map(({ promised: then, site, minutes }) => ({ start: then?.start ?? 0, minutes, place: people.length + site }))
    .sort((one, two) => one.start - two.start);
  for (let from = Math.max(rule.from, shift.from); from + rule.minutes <= rule.until + ROUNDING; from += 1) {
    const pause = { from, until: from + rule.minutes };
    let [time, place, kept] = [shift.from, person, true];
    // As the day would go: what the break interrupts, or stands before, comes so much later.
    const goOn = (minutes: number) => {
      const end = time + minutes;
      time = time <= pause.from && end > pause.from ? end + rule.minutes : end;
    };
    for (const next of promised) {
      goOn(travel.minutes[place * places + next.place] as number);
      kept &&= time <= next.start + ROUNDING && (next.start < pause.from || next.start >= pause.until);
      time = next.start;
      goOn(next.minutes);
      place = next.place;
    }
    goOn(travel.minutes[place * places + person] as number);
    if (kept && time <= shift.until + ROUNDING) return true;
  }
  return false;
}

/** Before there was time for notice, though it is not urgent and no visit that was there on that day. */
function comesUnannounced({ noticeFrom = 0, urgent, published }: WorkToPlan, day: number): boolean {
  if (day >= noticeFrom || urgent === true) return false;
  return published?.start === undefined || published.day !== day;
}

/** Whether somebody holds a certificate on a day. */
function holds({ skills }: PlanInput['people'][number], name: string, day: number): boolean {
  const last = skills.get(name);
  return last === null || (last !== undefined && last >= day);
}

function faultsOfNights({ people }: PlanInput, tours: readonly DayTour[]): PlanFault[] {
  const faults: PlanFault[] = [];
  for (const [person, { mostNights, onCall }] of people.entries()) {
    const own = tours.filter((tour) => tour.person === person).sort((one, two) => one.day - two.day);
    let nights = 0;
    for (const [at, tour] of own.entries()) {
      const before = own[at - 1];
      const follows = before !== undefined && before.day === tour.day - 1;
      const slept = follows ? before.endPlace : person;
      const fault = (text: string) => faults.push({ person, day: tour.day, work: null, text });
      if (tour.startPlace !== slept) fault('begins elsewhere than the night was spent');
      if (!follows && before !== undefined && before.endPlace !== person) fault('was away on a day without a tour');
      nights = tour.endPlace === person ? 0 : nights + 1;
      if (nights > mostNights) fault(`is away for more than ${mostNights} nights`);
      if (tour.endPlace !== person && (onCall?.[tour.day] === true || onCall?.[tour.day + 1] === true)) fault('is away overnight while on call');
    }
    const last = own.at(-1);
    if (last !== undefined && last.endPlace !== person) faults.push({ person, day: last.day, work: null, text: 'does not come home' });
  }
  return faults;
}

function faultsOfHours({ people }: PlanInput, tours: readonly DayTour[]): PlanFault[] {
  const faults: PlanFault[] = [];
  for (const [person, { restMinutes = 0, overtime, shifts }] of people.entries()) {
    const own = tours.filter((tour) => tour.person === person);
    // Beyond the limit whatever comes on top is too much.
    const over = new Map([[overtime?.weekOf[0] ?? 0, Math.min(overtime?.before ?? 0, overtime?.minutes ?? 0)]]);
    for (const { day, back } of own) {
      const fault = (text: string) => faults.push({ person, day, work: null, text });
      const next = own.find((tour) => tour.day === day + 1);
      if (next !== undefined && next.leave + DAY_MINUTES - back < restMinutes - ROUNDING) fault('has too little rest before the next day');
      if (overtime === undefined) continue;
      const week = overtime.weekOf[day] ?? 0;
      const before = over.get(week) ?? 0;
      const after = before + Math.max(0, back - (regularEnd(shifts[day]) ?? back));
      over.set(week, after);
      if (before <= overtime.minutes + ROUNDING && after > overtime.minutes + ROUNDING) fault('has more overtime in the week than is allowed');
    }
  }
  return faults;
}

const regularEnd = (shift: PlanInput['people'][number]['shifts'][number] | undefined) => shift?.regularUntil;

function faultsOfWork({ people, work }: PlanInput, { tours, leftOut }: VisitPlan): PlanFault[] {
  const out = new Set(leftOut);
  const placed = work.map((): { person: number; day: number; start: number; end: number }[] => []);
  for (const { person, day, stops } of tours) for (const { work: at, start, end } of stops) placed[at]?.push({ person, day, start, end });
  return work.flatMap((item, at): PlanFault[] => {
    const there = placed[at] ?? [];
    const fault = (text: string) => [{ person: there[0]?.person ?? null, day: there[0]?.day ?? null, work: at, text }];
    if (there.length === 0) return out.has(at) ? [] : fault('is neither in the plan nor left out');
    if (out.has(at)) return fault('is in the plan and left out');
    if (there.length !== item.people) return fault(`needs ${item.people} people and has ${there.length}`);
    const [one, two] = there;
    if (two !== undefined && one !== undefined && (two.day !== one.day || two.person === one.person || Math.abs(two.start - one.start) > ROUNDING))
      return fault('is not begun together');
    if (two !== undefined && one !== undefined && item.promised === null && Math.abs(two.end - one.end) > ROUNDING)
      return fault('leaves one of two people alone for a break');
    if (!there.some(({ person, day }) => isAbleAt(person, item, day))) return fault('has nobody with the skill');
    if (!there.some(({ person, day }) => bringsParts(item, person, day))) return fault('has no parts on that day');
    return promiseKept(item, there) ? [] : fault('breaks a promise');
  });

  function isAbleAt(person: number, item: WorkToPlan, day: number): boolean {
    const found = people[person];
    return found !== undefined && isAble(found, item.skills, day);
  }
}

/** The parts are there for everybody by then, or lie in the van of who goes. */
const bringsParts = ({ partsFrom, partsSooner }: WorkToPlan, person: number, day: number): boolean =>
  [partsFrom, partsSooner?.get(person) ?? null].some((from) => from !== null && from <= day);

/** Work that is not promised comes after what it is to come after, which is in the plan. */
function faultsOfOrder({ work }: PlanInput, { tours }: VisitPlan): PlanFault[] {
  const timesOf = (at: number) =>
    tours.flatMap(({ person, day, stops }) =>
      stops.filter((stop) => stop.work === at).map(({ start, end }) => ({ person, day, start: day * DAY_MINUTES + start, end: day * DAY_MINUTES + end })),
    );
  return work.flatMap(({ after = [], promised }, at): PlanFault[] => {
    const own = promised === null && after.length > 0 ? timesOf(at) : [];
    return own.flatMap(({ person, day, start }) =>
      after.flatMap((other): PlanFault[] => {
        const before = timesOf(other);
        if (before.length > 0 && before.every(({ end }) => end <= start + ROUNDING)) return [];
        return [{ person, day, work: at, text: before.length === 0 ? 'comes without the work before it' : 'comes before the work that it is to come after' }];
      }),
    );
  });
}

function promiseKept({ promised }: WorkToPlan, there: readonly { person: number; day: number; start: number }[]): boolean {
  if (promised === null) return true;
  return there.every(({ person, day, start }) => day === promised.day && promised.people.includes(person) && Math.abs(start - promised.start) < 1);
}
