import { type Day, dayInWords } from '../../shared/day.js';
import type { Standing } from '../../shared/standing.js';
import { SEVERITY_LABELS, type Severity } from '../../shared/work.js';
import { weekdayOf, whenAt } from './times.js';

const count = (n: number, one: string, many: string): string => `${n} ${n === 1 ? one : many}`;

/** All that notices say. Another language is another file of this type. */
export const noticeWords = {
  more: (n: number) => `and ${n} more`,
  for: (name: string, day: Day) => `For ${name}, ${weekdayOf(day)} ${dayInWords(day, '')}.`,
  open: (address: string) => `Open Skidkeep: ${address}`,
  why: (digest: 'daily' | 'weekly', hour: number, timeZone: string) =>
    `You get this ${digest === 'daily' ? 'every day' : 'every Monday'} from ${String(hour).padStart(2, '0')}:00 on (${timeZone}). Change or stop it in Skidkeep under Notices.`,
  visit: (onDay: Day, startTime: string, readOn: Day) => `${weekdayOf(onDay)} ${dayInWords(onDay, readOn)}, ${startTime}`,
  job: (no: number, title: string) => `job ${no}: ${title}`,
  atOnce: {
    subject: (severity: Severity, skidName: string, telling: number) => `${SEVERITY_LABELS[severity]}: ${skidName}${telling === 0 ? '' : ' (still open)'}`,
    what: (severity: Severity, skidName: string, siteName: string, clientName: string) =>
      `${SEVERITY_LABELS[severity]} at ${skidName}, ${siteName} (${clientName}).`,
    since: (noticedAt: Date, timeZone: string) => `Noticed ${whenAt(noticedAt, timeZone)} (${timeZone}).`,
    again: (minutes: number) => `Nobody has taken it yet. This message comes again every ${minutes} minutes until somebody does.`,
    take: (no: number) => `Take it in Skidkeep: job ${no}.`,
    takeAt: (no: number, address: string) => `Take it (job ${no}): ${address}`,
    why: 'You get this because you chose to be told at once of what cannot wait. Change it in Skidkeep under Notices.',
  },
  reminder: {
    subject: (day: string) => `Skidkeep: we come on ${day}`,
    first: (when: string, siteName: string) => `We promised to come: ${when} (time at the site), ${siteName}.`,
    people: (people: readonly string[]) => `Who comes: ${people.join(', ')}.`,
    work: 'What it is for',
    why: 'You get this three days before a promised visit because you chose a weekly digest. Change or stop it in Skidkeep under Notices.',
  },
  answers: {
    subject: (day: string) => `Skidkeep: ${day} does not suit`,
    visit: (no: number) => `Visit ${no}`,
    declined: (by: string, reason: string) => `does not suit (${by}): ${reason}`,
    confirmed: (by: string) => `suits (${by}), to be promised`,
    wished: (days: readonly string[]) => `would suit: ${days.join(', ')}`,
    look: (no: number) => `Shift it in Skidkeep: visit ${no}.`,
    why: 'You get this because you chose to be told at once of what cannot wait. Change it in Skidkeep under Notices.',
  },
  manager: {
    answers: (n: number) => `${count(n, 'client has', 'clients have')} answered a proposed day`,
    subject: (overdue: number, due: number) => `Skidkeep: ${overdue} overdue, ${due} due`,
    dues: (overdue: number, due: number) => `${count(overdue, 'task', 'tasks')} overdue, ${due} due`,
    due: (standing: 'overdue' | 'due', task: string, skidName: string, siteName: string) =>
      `${standing === 'overdue' ? 'Overdue' : 'Due'}: ${task}, ${skidName}, ${siteName}`,
    latest: (day: string) => `latest ${day}`,
    best: (day: string) => `best on ${day}`,
    breakdowns: (n: number) => count(n, 'breakdown open', 'breakdowns open'),
    taken: (by: string | null) => (by === null ? 'taken by nobody' : `taken by ${by}`),
    visits: (n: number) => `${count(n, 'visit', 'visits')} in the next seven days`,
    reports: (n: number) => `${count(n, 'job sheet waits', 'job sheets wait')} for you`,
    held: 'does not count yet: something in it is to be put right',
    second: 'somebody else finished the job: say which sheet counts',
  },
  store: {
    subject: (tanks: number, items: number) => `Skidkeep: ${count(items, 'item', 'items')} short, ${count(tanks, 'tank', 'tanks')} running low`,
    items: 'Parts that the visits of the next 14 days need and that stores and vans do not hold',
    item: (code: string, name: string, needed: string, onHand: string, unit: string) => `${code} ${name}: ${needed} ${unit} needed, ${onHand} on hand`,
    tanks: 'Tanks that may run short within 14 days',
    tank: (tank: string, chemical: string, skidName: string, siteName: string, day: string) =>
      `${tank} (${chemical}), ${skidName}, ${siteName}: may run short from ${day}`,
  },
  technician: {
    subject: (n: number) => `Skidkeep: ${count(n, 'visit', 'visits')} in the next seven days`,
    visits: 'Your visits',
    with: (people: readonly string[]) => `with ${people.join(', ')}`,
  },
  client: {
    subject: (day: Day) => `Skidkeep: your skids, ${dayInWords(day, '')}`,
    supply: 'Chemicals that you see to',
    tank: (tank: string, skidName: string, siteName: string, asked: string) => `${tank}, ${skidName}, ${siteName}: ${asked}`,
    visits: 'Visits that we promised',
    finished: 'Work done lately',
    done: (title: string, skidName: string, day: string) => `${title}, ${skidName}, ${day}`,
    skids: 'Your skids',
    skid: (skidName: string, siteName: string, state: string) => `${skidName}, ${siteName}: ${state}`,
    standing: (standing: Standing, task: string | null) =>
      ({
        overdue: `work is overdue (${task})`,
        due: `work is due (${task})`,
        'no-data': 'no reading for too long to say how it is',
        watch: task === null ? 'we keep an eye on it' : `we keep an eye on it (${task})`,
        steady: 'nothing is due',
      })[standing],
  },
  calendar: {
    name: (person: string) => `Skidkeep visits, ${person}`,
    summary: (siteName: string, jobs: number) => `${siteName}: ${count(jobs, 'job', 'jobs')}`,
    siteTime: (startTime: string, timeZone: string) => `${startTime} at the site (${timeZone})`,
    people: (people: readonly string[]) => `Who comes: ${people.join(', ')}`,
    access: (hours: string) => `Access: ${hours}`,
  },
  trial: {
    subject: 'Skidkeep: the mail server works',
    text: 'This message was asked for in Skidkeep. It shows that the mail server takes messages of the service.',
  },
} as const;
