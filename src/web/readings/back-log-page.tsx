import { useQueryClient } from '@tanstack/react-query';
import { useId, useState } from 'react';
import { isSignalCode, SIGNALS } from '../../shared/signals.js';
import { UNITS, type UnitCode } from '../../shared/units.js';
import { api, query, type Schemas } from '../api/client.js';
import { type Problem, problemOf } from '../api/problem.js';
import { LoadReport } from '../loads/load-report.js';
import { TIME_FORMATS } from '../loads/time-formats.js';
import { PageHead } from '../ui/page-head.js';
import { SkidPlace } from '../ui/skid-place.js';
import { Loaded } from '../ui/states.js';
import { Trouble } from '../ui/trouble.js';
import { unitsOf } from '../unit-options.js';
import { loadReportWords } from '../words/load-report.js';
import { profileWords } from '../words/profiles.js';
import { words } from '../words.js';
import type { Sheet } from './hand-fields.js';
import { cellsOf, columnChoices, guessColumns, hasHeading, type PasteColumn } from './paste-columns.js';
import { requestKey } from './request-key.js';

const SHOWN_LINES = 3;
const LEVEL_UNITS: readonly UnitCode[] = ['m', 'cm', 'mm', '[ft_i]', '[in_i]'];

export default function BackLogPage({ skidId }: { skidId: string }) {
  const sheet = query.useQuery('get', '/api/skids/{skidId}/hand-sheet', { params: { path: { skidId } } });
  return (
    <>
      <PageHead title={words.backLog.title} over={sheet.data && <SkidPlace skidId={skidId} skidName={sheet.data.skidName} siteName={sheet.data.siteName} />}>
        <p className="aside">{words.backLog.note}</p>
      </PageHead>
      <Loaded of={sheet} what={words.readings.sheet}>
        {(found) => <BackLog sheet={found} />}
      </Loaded>
    </>
  );
}

type Answer = { readonly report: Schemas['LoadReportView']; readonly wasDry: boolean };

/** Paste, say what each column is, look at what would happen, and only then add it. */
function BackLog({ sheet }: { sheet: Sheet }) {
  const id = useId();
  const client = useQueryClient();
  const [text, setText] = useState('');
  const [columns, setColumns] = useState<readonly PasteColumn[]>([]);
  const [headerLines, setHeaderLines] = useState(0);
  const [timeFormat, setTimeFormat] = useState<string>('iso');
  const [decimal, setDecimal] = useState<'.' | ','>('.');
  const [replaceDiffering, setReplace] = useState(false);
  const [answer, setAnswer] = useState<Answer | null>(null);
  const [refusal, setRefusal] = useState<Problem | null>(null);
  const [attempt, setAttempt] = useState(0);
  const [isSending, setSending] = useState(false);
  const cells = cellsOf(text, SHOWN_LINES);

  const paste = (next: string) => {
    const read = cellsOf(next, SHOWN_LINES);
    setText(next);
    setAnswer(null);
    if (read[0]?.length === columns.length) return;
    setColumns(guessColumns(sheet, read));
    setHeaderLines(hasHeading(read) ? 1 : 0);
  };

  const send = async (dryRun: boolean) => {
    const body = {
      text,
      columns: columns.map(({ as, unit }) => ({ as, ...(unit === '' ? {} : { unit: unit as UnitCode }) })),
      timeFormat,
      decimal,
      headerLines,
      dryRun,
      replaceDiffering,
    };
    setSending(true);
    const { data, error } = await api
      .POST('/api/skids/{skidId}/hand-readings/paste', {
        params: { path: { skidId: sheet.skidId }, header: { 'Idempotency-Key': requestKey(body) } },
        body,
      })
      .catch((thrown: unknown) => ({ data: undefined, error: thrown }));
    setSending(false);
    setAttempt((count) => count + 1);
    setRefusal(data === undefined ? problemOf(error) : null);
    setAnswer(data === undefined ? null : { report: data, wasDry: dryRun });
    if (data !== undefined && !dryRun) void client.invalidateQueries();
  };

  return (
    <>
      {refusal !== null && (
        <Trouble
          title={refusal.title}
          troubles={refusal.errors.map(({ pointer, message }) => ({ message: `${pointer.replace(/^#\//, '')}: ${message}` }))}
          attempt={attempt}
        />
      )}
      <section className="block">
        <div className="field">
          <label htmlFor={`${id}text`}>{words.backLog.rows}</label>
          <p className="hint" id={`${id}hint`}>
            {words.backLog.rowsHint}
          </p>
          <textarea id={`${id}text`} aria-describedby={`${id}hint`} rows={8} value={text} onChange={(event) => paste(event.target.value)} spellCheck={false} />
        </div>
        <div className="fields">
          <div className="field">
            <label htmlFor={`${id}time`}>{profileWords.timeFormat}</label>
            <input id={`${id}time`} list={`${id}times`} value={timeFormat} onChange={(event) => setTimeFormat(event.target.value)} />
            <datalist id={`${id}times`}>
              {TIME_FORMATS.map((format) => (
                <option key={format} value={format} />
              ))}
            </datalist>
          </div>
          <div className="field">
            <label htmlFor={`${id}decimal`}>{profileWords.decimal}</label>
            <select id={`${id}decimal`} value={decimal} onChange={(event) => setDecimal(event.target.value === ',' ? ',' : '.')}>
              <option value=".">{profileWords.point}</option>
              <option value=",">{profileWords.comma}</option>
            </select>
          </div>
          <div className="field">
            <label htmlFor={`${id}lines`}>{words.backLog.headerLines}</label>
            <input id={`${id}lines`} type="number" min={0} max={100} value={headerLines} onChange={(event) => setHeaderLines(Number(event.target.value))} />
          </div>
        </div>
        {columns.length > 0 && <ColumnTable sheet={sheet} columns={columns} cells={cells} onChange={setColumns} />}
        <label className="tick">
          <input type="checkbox" checked={replaceDiffering} onChange={(event) => setReplace(event.target.checked)} /> {loadReportWords.replaceTick}
        </label>
        <div className="row">
          <button type="button" disabled={isSending || text.trim() === ''} onClick={() => void send(true)}>
            {loadReportWords.tryIt}
          </button>
          <button type="button" className="main-button" disabled={isSending || answer?.wasDry !== true} onClick={() => void send(false)}>
            {words.backLog.add}
          </button>
          <span role="status" className="hint">
            {isSending ? loadReportWords.reading : ''}
          </span>
        </div>
      </section>
      {answer !== null && (
        <section className="block" aria-labelledby={`${id}answer`}>
          <div role="status">
            <h2 id={`${id}answer`}>{answer.wasDry ? loadReportWords.dry : loadReportWords.done}</h2>
          </div>
          <LoadReport report={answer.report} timeZone={sheet.timeZone} />
        </section>
      )}
    </>
  );
}

interface ColumnTableProps {
  readonly sheet: Sheet;
  readonly columns: readonly PasteColumn[];
  readonly cells: readonly string[][];
  readonly onChange: (columns: readonly PasteColumn[]) => void;
}

function ColumnTable({ sheet, columns, cells, onChange }: ColumnTableProps) {
  const choices = columnChoices(sheet);
  const set = (at: number, column: PasteColumn) => onChange(columns.map((each, place) => (place === at ? column : each)));
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: a box that scrolls must be reachable by keyboard
    <section className="sheet-hold" tabIndex={0} aria-label={words.backLog.columns}>
      <table className="sheet">
        <caption className="unseen">{words.backLog.columns}</caption>
        <thead>
          <tr>
            <th scope="col">{words.backLog.place}</th>
            <th scope="col">{words.backLog.firstCells}</th>
            <th scope="col">{words.backLog.as}</th>
            <th scope="col">{words.readings.unit}</th>
          </tr>
        </thead>
        <tbody>
          {columns.map((column, at) => (
            <tr key={at}>
              <th scope="row">{at + 1}</th>
              <td>{cells.map((line) => line[at] ?? '').join(' · ')}</td>
              <td>
                <select
                  aria-label={words.backLog.asOf(at + 1)}
                  value={column.as}
                  onChange={(event) => set(at, { as: event.target.value, unit: choices.find(({ as }) => as === event.target.value)?.unit ?? '' })}
                >
                  {choices.map(({ as, label }) => (
                    <option key={as} value={as}>
                      {label}
                    </option>
                  ))}
                </select>
              </td>
              <td>
                {unitsFor(column.as).length > 0 && (
                  <select aria-label={words.backLog.unitOf(at + 1)} value={column.unit} onChange={(event) => set(at, { ...column, unit: event.target.value })}>
                    {unitsFor(column.as).map((code) => (
                      <option key={code} value={code}>
                        {UNITS[code].label || code}
                      </option>
                    ))}
                  </select>
                )}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}

function unitsFor(as: string): readonly UnitCode[] {
  if (as.startsWith('tank ')) return LEVEL_UNITS;
  return isSignalCode(as) ? unitsOf(SIGNALS[as].dimension) : [];
}
