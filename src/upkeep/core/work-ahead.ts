import { type Day, dayPlus, daysBetween } from '../../shared/day.js';

/** One task at one place, with the day that it is due next and how often it comes back. */
export interface ComingTask {
  readonly task: string;
  readonly kind: string;
  readonly contains: readonly string[];
  readonly dueOn: Day;
  readonly earliestOn: Day;
  readonly latestOn: Day;
  /** At the pace of recent weeks, whichever limit comes first; `null`: it comes once, as far as anybody knows */
  readonly everyDays: number | null;
  /** Usual time on the clock times the people it takes */
  readonly personMinutes: number;
}

/** The work of one kind in one week at one skid. */
export interface WeekOfWork {
  /** A Monday */
  readonly week: Day;
  readonly kind: string;
  readonly hours: number;
  readonly tasks: number;
  readonly detail: readonly { readonly task: string; readonly times: number; readonly hours: number }[];
}

export const WEEKS_AHEAD = 52;

/**
 * The Monday on or before a day.
 *
 * @example mondayOf('2026-11-25') // => "2026-11-23"
 */
export function mondayOf(day: Day): Day {
  // 1 January 2024 was a Monday.
  return dayPlus(day, -(((daysBetween('2024-01-01', day) % 7) + 7) % 7));
}

/**
 * Work of the coming 52 weeks at one place (a position, or the skid as a whole): each task on its due day and again after each interval. What is late counts in the week of
 * `today`. A larger task takes the smaller ones that it contains with it where they fall together, and begins their count anew whenever it is done. Each occurrence is
 * taken to be done on its day.
 *
 * Source: own definition; nested services as in `absorbSmaller`.
 *
 * @example workAhead([{ task: 'grease', kind: 'service', contains: [], dueOn: '2026-11-25', earliestOn: '2026-11-20', latestOn: '2026-12-01', everyDays: 200, personMinutes: 90 }], '2026-11-25').map(({ week, hours }) => [week, hours]) // => [["2026-11-23", 1.5], ["2027-06-07", 1.5]]
 */
export function workAhead(tasks: readonly ComingTask[], today: Day): WeekOfWork[] {
  const from = mondayOf(today);
  const end = dayPlus(from, 7 * WEEKS_AHEAD);
  const running = tasks.map((task) => ({ task, at: Math.max(0, daysBetween(from, task.dueOn < today ? today : task.dueOn)) }));
  const last = daysBetween(from, end);
  const weeks = new Map<string, { task: ComingTask; week: Day; times: number }>();
  for (;;) {
    const next = running.reduce<(typeof running)[number] | null>((soonest, one) => (soonest === null || comesBefore(one, soonest) ? one : soonest), null);
    if (next === null || next.at >= last) break;
    const { task, at } = next;
    const larger = running.find((one) => one !== next && one.task.contains.includes(task.task) && withinWindow(one.at, next));
    if (larger !== undefined) {
      // Done with the larger one, which begins its count anew.
      next.at = larger.at + stepOf(task);
      continue;
    }
    const week = dayPlus(from, 7 * Math.floor(at / 7));
    const key = `${week} ${task.kind} ${task.task}`;
    weeks.set(key, { task, week, times: (weeks.get(key)?.times ?? 0) + 1 });
    next.at = at + stepOf(task);
    for (const smaller of running) {
      if (smaller !== next && task.contains.includes(smaller.task.task) && smaller.task.everyDays !== null)
        smaller.at = Math.max(smaller.at, at + stepOf(smaller.task));
    }
  }
  return byWeekAndKind([...weeks.values()]);
}

/** Several places together. */
export function addWeeks(places: readonly (readonly WeekOfWork[])[]): WeekOfWork[] {
  const sums = new Map<string, WeekOfWork>();
  for (const one of places.flat()) {
    const key = `${one.week} ${one.kind}`;
    const sum = sums.get(key);
    const detail = new Map(sum?.detail.map((line) => [line.task, line]));
    for (const { task, times, hours } of one.detail) {
      const line = detail.get(task);
      detail.set(task, { task, times: times + (line?.times ?? 0), hours: hours + (line?.hours ?? 0) });
    }
    sums.set(key, { ...one, hours: one.hours + (sum?.hours ?? 0), tasks: one.tasks + (sum?.tasks ?? 0), detail: [...detail.values()] });
  }
  return [...sums.values()];
}

interface Running {
  readonly task: ComingTask;
  /** Days after the first Monday */
  readonly at: number;
}

function stepOf({ everyDays }: ComingTask): number {
  return everyDays === null ? Number.POSITIVE_INFINITY : Math.max(1, Math.floor(everyDays));
}

/** The larger of two on one day goes first, so that it takes the smaller with it. */
function comesBefore(one: Running, other: Running): boolean {
  return one.at < other.at || (one.at === other.at && one.task.contains.length > other.task.contains.length);
}

/** Whether the larger task falls within what the smaller one allows around its day: as its due says. */
function withinWindow(at: number, { at: own, task }: Running): boolean {
  return at >= own - daysBetween(task.earliestOn, task.dueOn) && at <= own + daysBetween(task.dueOn, task.latestOn);
}

function byWeekAndKind(lines: readonly { task: ComingTask; week: Day; times: number }[]): WeekOfWork[] {
  return addWeeks(
    lines.map(({ task: { task, kind, personMinutes }, week, times }) => {
      const hours = (times * personMinutes) / 60;
      return [{ week, kind, hours, tasks: times, detail: [{ task, times, hours }] }];
    }),
  );
}
