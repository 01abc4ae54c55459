import type { SummaryLine, SummaryTask } from '../../../jobs/core/report-summary.js';
import { day, minutes, number } from '../../../shared/format.js';
import { SEVERITY_LABELS, type Severity } from '../../../shared/work.js';
import type { Block, Cell, Fact } from '../document.js';
import type { FileRecord, JobFacts, JobTaskRecord, SheetRecord } from '../job-data.js';
import { at, type Manner } from '../manner.js';
import { words } from '../words.js';
import { calibrationSection, integritySection } from './proofs.js';

/** All that is on record of a job: what was asked, what was done step by step, who did it and who signed. */
export function jobBlocks(facts: JobFacts, manner: Manner): Block[] {
  const { job, tasks, sheets, told, breakdowns, files } = facts;
  return [
    { kind: 'facts', facts: jobFacts(facts, manner) },
    ...(job.request === ''
      ? []
      : ([
          { kind: 'heading', level: 3, text: words.job.request },
          { kind: 'paragraph', text: job.request },
        ] as const)),
    ...breakdowns.flatMap(({ severity, cause, remedy }): Block[] => {
      const said = [SEVERITY_LABELS[severity as Severity] ?? severity, cause && words.job.cause(cause), remedy && words.job.remedy(remedy)].filter(Boolean);
      return [
        { kind: 'heading', level: 3, text: words.job.breakdown },
        { kind: 'list', items: said },
      ];
    }),
    ...taskBlocks(tasks, manner),
    ...(sheets.length === 0 ? [{ kind: 'paragraph', text: words.job.noSheet } as const] : sheets.flatMap((sheet) => sheetBlocks(sheet, manner))),
    ...photographBlocks(files, manner),
    ...(told.length === 0
      ? []
      : ([
          { kind: 'heading', level: 2, text: words.job.told },
          { kind: 'list', items: told.map((each) => words.job.toldLine(at(each.at, manner), each.by, each.note)) },
        ] as const)),
  ];
}

function jobFacts({ job, breakdowns }: JobFacts, manner: Manner): Fact[] {
  const { job: names } = words;
  const known: [string, string | null][] = [
    [names.state, job.stateNote === '' ? job.state : `${job.state}: ${job.stateNote}`],
    [names.kind, job.kind],
    [names.asked, words.job.byOn(job.createdBy, at(job.createdAt, manner))],
    [names.finished, job.finishedAt === null ? null : words.job.byOn(job.finishedBy ?? words.none, at(job.finishedAt, manner))],
    [names.noticed, breakdowns[0] === undefined ? null : at(breakdowns[0].noticedAt, manner)],
    [names.restored, breakdowns[0]?.restoredAt == null ? null : at(breakdowns[0].restoredAt, manner)],
  ];
  return known.flatMap(([name, value]) => (value === null ? [] : [[name, value] as const]));
}

function taskBlocks(tasks: readonly JobTaskRecord[], manner: Manner): Block[] {
  if (tasks.length === 0) return [];
  const { tasks: title, task, reason, due, outcome } = words.job;
  return [
    { kind: 'heading', level: 2, text: title },
    {
      kind: 'table',
      caption: title,
      columns: [task, reason, due, outcome].map((name) => ({ name })),
      rows: tasks.map((row) => [
        row.positionName === null ? row.task : `${row.task}\n${row.positionName}`,
        row.reason,
        day(row.dueOn),
        row.doneAt === null ? (row.outcome ?? words.none) : `${row.outcome ?? ''}\n${at(row.doneAt, manner)}`.trim(),
      ]),
    },
  ];
}

function sheetBlocks(sheet: SheetRecord, manner: Manner): Block[] {
  const { summary } = sheet;
  const { job } = words;
  return [
    { kind: 'heading', level: 2, text: job.sheet(sheet.by) },
    { kind: 'paragraph', text: job.spent(at(sheet.startedAt, manner), at(sheet.finishedAt, manner), minutes(sheet.minutes)) },
    ...summary.tasks.flatMap(taskDone),
    ...(summary.lines.length === 0 ? [] : ([{ kind: 'heading', level: 3, text: job.alsoDone }, linesTable(job.alsoDone, job.what, summary.lines)] as const)),
    ...(sheet.tests.length + sheet.repairs.length === 0 ? [] : integritySection(sheet, manner)),
    ...(sheet.calibrations.length === 0 ? [] : calibrationSection({ calibrations: sheet.calibrations, doubts: [] }, manner)),
    ...(summary.note === ''
      ? []
      : ([
          { kind: 'heading', level: 3, text: job.note },
          { kind: 'paragraph', text: summary.note },
        ] as const)),
    { kind: 'paragraph', text: sheet.signedBy === '' ? job.notSigned : job.signed(sheet.signedBy, at(sheet.finishedAt, manner)), tone: 'lead' },
  ];
}

function taskDone({ task, positionName, outcome, note, steps }: SummaryTask): Block[] {
  const title = positionName === null ? task : `${task}, ${positionName}`;
  return [
    { kind: 'heading', level: 3, text: `${title}: ${outcome}` },
    ...(note === '' ? [] : [{ kind: 'paragraph', text: note } as const]),
    ...(steps.length === 0 ? [] : [linesTable(title, words.job.step, steps)]),
  ];
}

/** Lines with a mark, in a column that is there only where something is marked. */
function linesTable(caption: string, name: string, lines: readonly SummaryLine[]): Block {
  const marked = lines.some(({ mark }) => mark !== null);
  const { result, look } = words.job;
  return {
    kind: 'table',
    caption,
    columns: [name, result, ...(marked ? [look] : [])].map((each) => ({ name: each })),
    rows: lines.map((line): Cell[] => [line.name, line.value, ...(marked ? [line.mark ?? ''] : [])]),
  };
}

function photographBlocks(files: readonly FileRecord[], manner: Manner): Block[] {
  if (files.length === 0) return [];
  const photographs = files.flatMap(({ name, by, at: when, content }) =>
    content === null ? [] : [{ name, caption: words.job.byOn(by, at(when, manner)), content }],
  );
  const others = files.filter(({ content }) => content === null).map(({ name, by, at: when }) => `${name}: ${words.job.byOn(by, at(when, manner))}`);
  return [
    { kind: 'heading', level: 2, text: words.job.files },
    ...(photographs.length === 0 ? [] : [{ kind: 'photographs', photographs } as const]),
    ...(others.length === 0
      ? []
      : ([
          { kind: 'paragraph', text: words.job.otherFiles(number(others.length)) },
          { kind: 'list', items: others },
        ] as const)),
  ];
}
