import { day, minutes, moment, number } from '../../shared/format.js';
import type { Block, ReportDocument } from './document.js';
import type { JobFacts, VisitFacts } from './job-data.js';
import type { Manner } from './manner.js';
import { jobBlocks } from './sections/job.js';
import { words } from './words.js';

const made = ({ now, timeZone }: Manner) => ({ made: words.made(moment(now, timeZone)), madeAtMs: now.getTime() });

/** The report of one job. */
export function jobReport(facts: JobFacts, manner: Manner): ReportDocument {
  const { job } = facts;
  const title = words.job.title(number(job.no), job.title);
  return {
    title,
    place: words.running(job.clientName, job.siteName, job.skidName),
    running: words.running(title, job.skidName),
    ...made(manner),
    blocks: jobBlocks(facts, manner),
  };
}

/** The report of a visit: who was there, and each of its jobs. */
export function visitReport(visit: VisitFacts, manner: Manner): ReportDocument {
  const title = words.visit.title(number(visit.no), day(visit.onDay));
  const { visit: names } = words;
  return {
    title,
    place: words.running(visit.clientName, visit.siteName),
    running: words.running(title, visit.siteName),
    ...made(manner),
    blocks: [
      {
        kind: 'facts',
        facts: [
          [names.state, visit.state],
          [names.people, visit.people.join(', ') || words.none],
          [names.from, visit.startTime],
          [names.planned, minutes(visit.minutes)],
        ],
      },
      ...(visit.noteToClient === '' ? [] : [{ kind: 'paragraph', text: visit.noteToClient } as const]),
      ...jobsOf(visit, manner),
    ],
  };
}

function jobsOf({ jobs }: VisitFacts, manner: Manner): Block[] {
  const { visit: names } = words;
  if (jobs.length === 0) return [{ kind: 'paragraph', text: names.noJobs }];
  return [
    { kind: 'heading', level: 2, text: names.jobs },
    {
      kind: 'table',
      caption: names.jobs,
      columns: [{ name: names.no, numeric: true }, { name: names.job }, { name: names.skid }, { name: names.state }],
      rows: jobs.map(({ job }) => [number(job.no), job.title, job.skidName, job.state]),
    },
    ...jobs.flatMap((facts): Block[] => [
      { kind: 'part', place: facts.job.skidName, title: words.job.title(number(facts.job.no), facts.job.title), goesOn: true },
      ...jobBlocks(facts, manner),
    ]),
  ];
}
