import { type Day, dayInWords } from '../../shared/day.js';
import type { DatedLimit, DueDate, LastFrom, LimitDue } from './due-date.js';

const WHOLE = new Intl.NumberFormat('en-GB', { maximumFractionDigits: 0 });
const ONE_PLACE = new Intl.NumberFormat('en-GB', { maximumFractionDigits: 1 });

const BEGUN: Record<LastFrom, (day: string) => string> = {
  'service entry': (day) => `Last done on ${day}`,
  record: (day) => `Last done on ${day}`,
  fitted: (day) => `Counted since the part was fitted on ${day}`,
  commissioned: (day) => `Never done on record, counted since the start on ${day}`,
  'laid up': (day) => `Counted since the skid was laid up on ${day}`,
  'not known': () => 'It is not known when this was last done',
};

/**
 * Why a task is due when it is, in one sentence for the person who plans the visit: the last time, the limit that comes first, how much of it is left and
 * how fast it goes, and which limit was not the one. Values in the unit of the limit, days by name.
 *
 * Source: own wording.
 *
 * @example dueReason({ dueOn: null, limit: null, earliestOn: null, latestOn: null, byLimit: [], byDate: [], lastDoneOn: '2025-01-10', lastFrom: 'service entry', base: 'floating' }, '2025-03-01') // => "Last done on 10 Jan; the rule names no limit."
 */
export function dueReason(due: DueDate, today: Day): string {
  const begun = BEGUN[due.lastFrom](dayInWords(due.lastDoneOn, today));
  const dated = due.byDate.find(({ limit, dueOn }) => limit === due.limit && dueOn === due.dueOn);
  const first = due.byLimit.find(({ limit }) => limit === due.limit);
  if (due.dueOn === null || (first === undefined && dated === undefined)) return `${begun}; ${whyNone(due)}.`;
  const others = [...due.byLimit.filter((limit) => limit !== first).map(otherInWords), ...due.byDate.filter((limit) => limit !== dated).flatMap(datedOther)];
  const words = first === undefined ? (dated?.inWords ?? '') : firstInWords(first, due.dueOn, today);
  return `${begun}; ${words}${others.length === 0 ? '' : `, ${others.join(', ')}`}.`;
}

function datedOther({ dueOn, limit, from }: DatedLimit): string[] {
  return dueOn === null ? [] : [`before ${from === 'outlook' ? `the outlook of the ${limit} asks for it` : `the ${limit} asked for it`}`];
}

function firstInWords({ limit, unit, interval, left, dailyUse }: LimitDue, dueOn: Day, today: Day): string {
  const on = dayInWords(dueOn, today);
  if (limit === 'calendar') return `every ${WHOLE.format(interval)} days, so ${dueOn < today ? `it was due on ${on}` : `by ${on}`}`;
  const every = `every ${amount(interval, unit)}`;
  const rate = dailyUse ? ` at ${ONE_PLACE.format(dailyUse)} ${unit} a day` : '';
  if (left === null || left >= 0) return `${every}, of which ${amount(left ?? 0, unit)} are left${rate}: until ${on}`;
  return `${every}, passed by ${amount(-left, unit)}${rate}: since ${on}`;
}

function otherInWords({ limit, unit, interval, now, dailyUse, dueOn }: LimitDue): string {
  if (limit === 'calendar') return dueOn === null ? 'while the calendar stands still' : `before the ${WHOLE.format(interval)} days are over`;
  if (dueOn !== null) return `before the ${amount(interval, unit)} are used up`;
  return now === null || dailyUse === null ? `while the use is not known (${limit})` : `while the count stands still (${limit})`;
}

function whyNone({ byLimit, byDate }: DueDate): string {
  if (byLimit.length === 0) return byDate[0]?.inWords ?? 'the rule names no limit';
  if (byLimit.some(({ limit }) => limit === 'calendar')) return 'the calendar stands still while the skid is laid up';
  return byLimit.some(({ now, lastAt, dailyUse }) => now === null || lastAt === null || dailyUse === null)
    ? 'no day can be given, since the use is not known'
    : 'no day can be given while it stands still, and no calendar limit holds';
}

function amount(value: number, unit: LimitDue['unit']): string {
  return `${WHOLE.format(value)} ${unit}`;
}
