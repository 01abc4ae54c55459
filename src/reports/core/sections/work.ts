import { minutes, number } from '../../../shared/format.js';
import { SEVERITY_LABELS, type Severity } from '../../../shared/work.js';
import type { Block, Cell } from '../document.js';
import { at, type Manner } from '../manner.js';
import type { PeriodBreakdown, PeriodFitting, SkidPeriod } from '../period-data.js';
import { words } from '../words.js';

export function workSection({ work, states, jobs, breakdowns }: Pick<SkidPeriod, 'work' | 'states' | 'jobs' | 'breakdowns'>, manner: Manner): Block[] {
  const rows = [
    ...work.map((entry) => ({
      at: entry.at,
      cells: [at(entry.at, manner), entry.positionName ?? words.work.whole, withNote(entry.task, entry.note), number(entry.minutes), entry.by],
    })),
    ...states.map((change) => ({
      at: change.at,
      cells: [at(change.at, manner), words.work.whole, withNote(words.work.state(change.state), change.note), words.none, change.by],
    })),
  ].sort((a, b) => a.at.getTime() - b.at.getTime());
  const { when, position, what, minutes: spent, by } = words.work;
  const columns = [{ name: when }, { name: position }, { name: what }, { name: spent, numeric: true }, { name: by }];
  return [
    { kind: 'heading', level: 2, text: words.work.title },
    rows.length === 0
      ? { kind: 'paragraph', text: words.work.none }
      : { kind: 'table', caption: words.work.title, columns, rows: rows.map(({ cells }) => cells) },
    ...jobsBlocks(jobs, manner),
    ...breakdownBlocks(breakdowns, manner),
  ];
}

function jobsBlocks(jobs: SkidPeriod['jobs'], manner: Manner): Block[] {
  if (jobs.length === 0) return [];
  const { jobs: title, job, kind, title2, finished, by } = words.work;
  return [
    { kind: 'heading', level: 3, text: title },
    {
      kind: 'table',
      caption: title,
      columns: [{ name: job, numeric: true }, { name: kind }, { name: title2 }, { name: finished }, { name: by }],
      rows: jobs.map((row) => [number(row.no), row.kind, row.title, at(row.finishedAt, manner), row.finishedBy ?? words.none]),
    },
  ];
}

export function breakdownBlocks(breakdowns: readonly PeriodBreakdown[], manner: Manner): Block[] {
  if (breakdowns.length === 0) return [];
  const { breakdowns: title, job, severity, title2, noticed, down, remedy } = words.work;
  return [
    { kind: 'heading', level: 3, text: title },
    {
      kind: 'table',
      caption: title,
      columns: [{ name: job, numeric: true }, { name: title2 }, { name: severity }, { name: noticed }, { name: down }, { name: remedy }],
      rows: breakdowns.map((row): Cell[] => [
        number(row.jobNo),
        row.title,
        SEVERITY_LABELS[row.severity as Severity] ?? row.severity,
        at(row.noticedAt, manner),
        downTime(row),
        [row.cause, row.remedy].filter(Boolean).join('; ') || words.none,
      ]),
    },
  ];
}

function downTime({ downFrom, restoredAt }: PeriodBreakdown): string {
  if (downFrom === null) return words.work.noDown;
  return restoredAt === null ? words.work.notRestored : minutes((restoredAt.getTime() - downFrom.getTime()) / 60_000);
}

export function partsSection({ fittings }: Pick<SkidPeriod, 'fittings'>, manner: Manner): Block[] {
  const { title, none, part, fitted, removed, why } = words.parts;
  const heading: Block = { kind: 'heading', level: 2, text: title };
  if (fittings.length === 0) return [heading, { kind: 'paragraph', text: none }];
  return [
    heading,
    {
      kind: 'table',
      caption: title,
      columns: [{ name: words.work.position }, { name: part }, { name: fitted }, { name: removed }, { name: why }],
      rows: fittings.map((row) => [
        row.positionName,
        partInWords(row),
        moved(row.fittedAt, row.fittedBy, manner),
        moved(row.removedAt, row.removedBy, manner),
        row.removalReason ?? '',
      ]),
    },
  ];
}

function partInWords({ itemName, serialNumber, lot, setCount }: PeriodFitting): string {
  const { serial, lot: ofLot, set } = words.parts;
  return [itemName, serialNumber && serial(serialNumber), lot && ofLot(lot), setCount > 1 && set(number(setCount))].filter(Boolean).join(', ');
}

const moved = (when: Date | null, by: string | null, manner: Manner): string =>
  when === null ? words.none : [at(when, manner), by].filter(Boolean).join('\n');
const withNote = (text: string, note: string): string => (note === '' ? text : `${text}\n${note}`);
