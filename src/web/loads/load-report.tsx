import { isSignalCode, SIGNALS } from '../../shared/signals.js';
import { isUnitCode } from '../../shared/units.js';
import type { Schemas } from '../api/client.js';
import { moment, number } from '../format.js';
import { Facts } from '../ui/page-head.js';
import { type Column, Sheet } from '../ui/sheet.js';
import { unitLabel } from '../units-choice.js';
import { loadReportWords } from '../words/load-report.js';
import { words } from '../words.js';

type Report = Schemas['LoadReportView'];
type Problem = Schemas['ProblemView'];
type PreviewRow = Schemas['PreviewRowView'];

const COUNTS = ['rows', 'kept', 'known', 'differing', 'replaced', 'doubtful', 'refused'] as const;

const PROBLEM_COLUMNS: readonly Column<Problem>[] = [
  { name: loadReportWords.line, cell: (problem) => (problem.line === 0 ? loadReportWords.whole : number(problem.line)) },
  { name: loadReportWords.column, cell: (problem) => problem.column ?? words.none },
  { name: loadReportWords.value, cell: (problem) => problem.value ?? words.none },
  { name: loadReportWords.outcome, cell: (problem) => loadReportWords.outcomes[problem.kind] },
  { name: loadReportWords.what, wide: true, cell: (problem) => problem.message },
];

/** What became of the rows, or what would become of them; of a file, of a form, and of a pasted back-log alike. */
export function LoadReport({ report, timeZone }: { report: Report; timeZone: string }) {
  return (
    <>
      <Facts facts={COUNTS.map((name) => ({ name: loadReportWords.counts[name], value: number(report[name]) }))} />
      <Problems totals={report.totals} problems={report.problems} />
      {report.preview.length > 0 && <Preview rows={report.preview} timeZone={timeZone} />}
    </>
  );
}

export function Problems({ totals, problems }: { totals: Report['totals']; problems: readonly Problem[] }) {
  if (problems.length === 0) return <p>{loadReportWords.noProblem}</p>;
  const all = totals.reduce((sum, total) => sum + total.count, 0);
  return (
    <>
      <h3>{loadReportWords.problems}</h3>
      {all > problems.length && (
        <ul className="plain">
          {totals.map(({ kind, message, count }) => (
            <li key={`${kind} ${message}`}>{loadReportWords.total(number(count), message)}</li>
          ))}
        </ul>
      )}
      <Sheet
        caption={loadReportWords.problems}
        columns={PROBLEM_COLUMNS}
        rows={problems}
        keyOf={({ line, column, message, value }) => `${line} ${column} ${value} ${message}`}
      />
    </>
  );
}

/** The first rows with a column for every field that comes in them. */
function Preview({ rows, timeZone }: { rows: readonly PreviewRow[]; timeZone: string }) {
  const fields = new Map(rows.flatMap((row) => row.fields.map((field) => [field.name, field.unit] as const)));
  const columns: Column<PreviewRow>[] = [
    { name: loadReportWords.line, cell: (row) => number(row.line) },
    { name: loadReportWords.time, cell: (row) => moment(row.at, timeZone) },
    ...[...fields].map(([name, unit]): Column<PreviewRow> => ({ name: fieldName(name, unit), numeric: true, cell: (row) => previewed(row, name) })),
  ];
  return (
    <>
      <h3>{loadReportWords.preview}</h3>
      <Sheet caption={loadReportWords.preview} columns={columns} rows={rows} keyOf={(row) => String(row.line)} scrolls />
    </>
  );
}

function fieldName(name: string, unit: string | null): string {
  const label = isSignalCode(name) ? SIGNALS[name].label : name;
  const shown = unit !== null && isUnitCode(unit) ? unitLabel(unit) : unit;
  return shown ? `${label}, ${shown}` : label;
}

function previewed(row: PreviewRow, name: string): string {
  return row.fields.find((field) => field.name === name)?.value ?? words.none;
}
