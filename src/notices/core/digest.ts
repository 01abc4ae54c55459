import { type Day, dayInWords } from '../../shared/day.js';
import { answerLine } from './answer-letter.js';
import type { AnswerFact, BreakdownFact, DueFact, FinishedJobFact, ReportFact, ShortItemFact, SkidFact, SupplyFact, TankFact, VisitFact } from './facts.js';
import type { Section } from './letter.js';
import { noticeWords as words } from './words.js';

/** What a digest is made of, before it is addressed. Null: there is nothing to tell. */
export interface Digest {
  readonly subject: string;
  readonly sections: readonly Section[];
}

const filled = (sections: readonly Section[]): Section[] => sections.filter(({ lines }) => lines.length > 0);
const digestOf = (subject: string, sections: readonly Section[]): Digest | null => {
  const told = filled(sections);
  return told.length === 0 ? null : { subject, sections: told };
};

export interface ManagerFacts {
  readonly overdue: number;
  readonly due: number;
  /** The most urgent of them */
  readonly dues: readonly DueFact[];
  readonly breakdowns: readonly BreakdownFact[];
  readonly visits: readonly VisitFact[];
  readonly reports: readonly ReportFact[];
  /** Since the digest before */
  readonly answers: readonly AnswerFact[];
}

/** What a manager is told: what is due and why, what is broken, who goes where, and what waits for a decision. */
export function managerDigest({ overdue, due, dues, breakdowns, visits, reports, answers }: ManagerFacts, today: Day): Digest | null {
  return digestOf(words.manager.subject(overdue, due), [
    {
      heading: words.manager.breakdowns(breakdowns.length),
      lines: breakdowns.map(({ no, title, severity, skidName, siteName, clientName, takenBy }) =>
        [words.atOnce.what(severity, skidName, siteName, clientName), `${words.job(no, title)}; ${words.manager.taken(takenBy)}`].join(' '),
      ),
    },
    {
      heading: words.manager.reports(reports.length),
      lines: reports.map(({ jobNo, title, skidName, by, state }) => `${skidName}, ${words.job(jobNo, title)} (${by}): ${words.manager[state]}`),
    },
    { heading: words.manager.answers(answers.length), lines: answers.map((answer) => answerLine(answer, today)) },
    { heading: words.manager.dues(overdue, due), lines: dues.map((fact) => dueLine(fact, today)), of: overdue + due },
    { heading: words.manager.visits(visits.length), lines: visits.map((visit) => visitLine(visit, today, visit.people)) },
  ]);
}

/** What a storekeeper is told: what visits need that is not there, and which tanks run low. */
export function storeDigest(items: readonly ShortItemFact[], tanks: readonly TankFact[], today: Day): Digest | null {
  return digestOf(words.store.subject(tanks.length, items.length), [
    { heading: words.store.items, lines: items.map(({ code, name, needed, onHand, unit }) => words.store.item(code, name, needed, onHand, unit)) },
    {
      heading: words.store.tanks,
      lines: tanks.map(({ tankName, chemical, skidName, siteName, shortOn }) =>
        words.store.tank(tankName, chemical, skidName, siteName, dayInWords(shortOn, today)),
      ),
    },
  ]);
}

/** What a technician is told: their own visits of the coming days, with the jobs. */
export function technicianDigest(visits: readonly VisitFact[], name: string, today: Day): Digest | null {
  const lines = visits.map((visit) => {
    const others = visit.people.filter((person) => person !== name);
    const jobs = visit.jobs.map(({ no, title, skidName }) => `${skidName}, ${words.job(no, title)}`);
    return [visitLine(visit, today, []), ...(others.length === 0 ? [] : [words.technician.with(others)]), ...jobs].join('; ');
  });
  return digestOf(words.technician.subject(visits.length), [{ heading: words.technician.visits, lines }]);
}

export interface ClientFacts {
  readonly visits: readonly VisitFact[];
  readonly finished: readonly FinishedJobFact[];
  readonly skids: readonly SkidFact[];
  /** Tanks that the client fills and that have to be seen to */
  readonly supply: readonly SupplyFact[];
}

/** What a client's person is told. How the skids are goes with every weekly message, and with a daily one that has something to tell. */
export function clientDigest({ visits, finished, skids, supply }: ClientFacts, digest: 'daily' | 'weekly', today: Day): Digest | null {
  const news = filled([
    { heading: words.client.supply, lines: supply.map(({ tankName, skidName, siteName, asked }) => words.client.tank(tankName, skidName, siteName, asked)) },
    { heading: words.client.visits, lines: visits.map((visit) => [visitLine(visit, today, visit.people), visit.noteToClient].filter(Boolean).join('; ')) },
    {
      heading: words.client.finished,
      lines: finished.map(({ title, skidName, finishedOn }) => words.client.done(title, skidName, dayInWords(finishedOn, today))),
    },
  ]);
  if (news.length === 0 && digest === 'daily') return null;
  const states = skids.map(({ skidName, siteName, serviceState, standing, task }) =>
    words.client.skid(skidName, siteName, `${serviceState}, ${words.client.standing(standing, task)}`),
  );
  return digestOf(words.client.subject(today), [...news, { heading: words.client.skids, lines: states }]);
}

function dueLine({ standing, task, skidName, siteName, bestOn, latestOn, reason }: DueFact, today: Day): string {
  const day = latestOn ?? bestOn;
  const limit = day === null ? [] : [(latestOn === null ? words.manager.best : words.manager.latest)(dayInWords(day, today))];
  return [words.manager.due(standing, task, skidName, siteName), ...limit, reason].join('; ');
}

function visitLine({ onDay, startTime, siteName, clientName }: VisitFact, today: Day, people: readonly string[]): string {
  const who = people.length === 0 ? '' : `: ${people.join(', ')}`;
  return `${words.visit(onDay, startTime, today)}, ${siteName} (${clientName})${who}`;
}
