import { useQueryClient } from '@tanstack/react-query';
import { useId, useState } from 'react';
import type { Schemas } from '../api/client.js';
import { number } from '../format.js';
import { Field } from '../ui/field.js';
import { Facts } from '../ui/page-head.js';
import { Refusal } from '../ui/refusal.js';
import { type Column, Sheet } from '../ui/sheet.js';
import { ShowMore } from '../ui/show-more.js';
import { tableWords as said } from '../words/tables.js';
import { words } from '../words.js';
import { sendTable, type TableAnswer, type TableKind } from './send-table.js';
import { StoreHead } from './store-head.js';

type Report = Schemas['ImportReportView'];
type RowProblem = Schemas['RowProblemView'];
const KINDS = ['items', 'suppliers', 'offers', 'bar-codes', 'stock-settings'] as const satisfies readonly TableKind[];

/** Items, suppliers, offers, bar codes and how items are kept as tables: out, and in again after a look that writes nothing. */
export default function TablesPage() {
  const id = useId();
  const client = useQueryClient();
  const [kind, setKind] = useState<TableKind>('items');
  const [file, setFile] = useState<File | null>(null);
  const [problem, setProblem] = useState<string | undefined>(undefined);
  const [answer, setAnswer] = useState<TableAnswer | null>(null);
  const [isBusy, setBusy] = useState(false);
  const send = async (how: 'look' | 'take' | 'take good') => {
    if (file === null) return setProblem(said.needFile);
    setBusy(true);
    setAnswer(await sendTable(kind, file, how));
    setBusy(false);
    if (how !== 'look') await client.invalidateQueries();
  };
  const forget = () => {
    setAnswer(null);
    setProblem(undefined);
  };
  const report = answer !== null && 'report' in answer ? answer.report : null;
  const refusal = answer !== null && 'refusal' in answer ? answer.refusal : null;
  return (
    <>
      <StoreHead title={said.title} />
      <section className="block">
        <p>{said.note}</p>
        <ul className="plain">
          {KINDS.map((one) => (
            <li key={one}>
              <a className="target" href={`/api/${one}.csv`} download>
                {said.out(said.kinds[one])}
              </a>
            </li>
          ))}
        </ul>
        <form
          noValidate
          onSubmit={(event) => {
            event.preventDefault();
            void send('look');
          }}
        >
          <div className="fields">
            <Field id={`${id}kind`} label={said.which}>
              {(props) => (
                <select
                  {...props}
                  value={kind}
                  onChange={({ target }) => {
                    setKind(KINDS.find((one) => one === target.value) ?? 'items');
                    forget();
                  }}
                >
                  {KINDS.map((one) => (
                    <option key={one} value={one}>
                      {said.kinds[one]}
                    </option>
                  ))}
                </select>
              )}
            </Field>
            <Field id={`${id}file`} label={said.file} hint={said.fileHint} problem={problem}>
              {(props) => (
                <input
                  {...props}
                  type="file"
                  accept=".csv,text/csv"
                  onChange={({ target }) => {
                    setFile(target.files?.[0] ?? null);
                    forget();
                  }}
                />
              )}
            </Field>
          </div>
          <div className="row">
            <button type="submit" className={report === null ? 'main-button' : undefined} disabled={isBusy}>
              {said.look}
            </button>
            {report?.dryRun === true && report.wrong === 0 && (
              <button type="button" className="main-button" disabled={isBusy} onClick={() => void send('take')}>
                {said.take}
              </button>
            )}
            {report?.dryRun === true && report.wrong > 0 && report.wrong < report.rows && (
              <button type="button" disabled={isBusy} onClick={() => void send('take good')}>
                {said.takeGood}
              </button>
            )}
          </div>
        </form>
        {refusal !== null && <Refusal problem={[refusal.title, ...refusal.errors.map(({ message }) => message)].join(': ')} />}
        <div role="status">{report !== null && <Found report={report} />}</div>
      </section>
    </>
  );
}

const COLUMNS: readonly Column<RowProblem>[] = [
  { name: said.line, cell: ({ line }) => number(line) },
  { name: said.column, cell: ({ column }) => column ?? said.wholeRow },
  { name: said.value, cell: ({ value }) => value ?? words.none },
  { name: said.message, wide: true, cell: ({ message }) => message },
];

function Found({ report }: { report: Report }) {
  const { dryRun, rows, made, changed, same, wrong, problems } = report;
  const facts = [
    { name: said.rows, value: number(rows) },
    { name: said.made, value: number(made) },
    { name: said.changed, value: number(changed) },
    { name: said.same, value: number(same) },
    { name: said.wrong, value: number(wrong) },
  ];
  return (
    <>
      <p>{dryRun ? said.looked : said.taken}</p>
      <Facts facts={facts} />
      {problems.length > 0 && (
        <ShowMore rows={problems}>
          {(shown) => <Sheet caption={said.caption} columns={COLUMNS} rows={shown} keyOf={({ line, column, message }) => `${line} ${column} ${message}`} />}
        </ShowMore>
      )}
    </>
  );
}
