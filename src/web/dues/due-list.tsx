import { Link } from 'wouter';
import type { Schemas } from '../api/client.js';
import { day, minutes } from '../format.js';
import { type Column, Sheet } from '../ui/sheet.js';
import { StandingTag } from '../ui/standing.js';
import type { Chosen } from '../visits/use-chosen.js';
import { words } from '../words.js';

type Due = Schemas['DueView'];

const task: Column<Due> = {
  name: words.dues.task,
  cell: (due) => (
    <>
      {due.task}
      {due.positionName !== null && <small>{due.positionName}</small>}
      <InJob due={due} />
    </>
  ),
};

/** A job holds it already: nobody else needs to see to it. */
function InJob({ due: { jobId, jobNo } }: { due: Due }) {
  if (jobId === null) return null;
  return (
    <small>
      <Link href={`/jobs/${jobId}`}>{words.dues.inJob(jobNo)}</Link>
    </small>
  );
}

const taskToChoose = ({ has, toggle }: Chosen): Column<Due> => ({
  name: words.dues.task,
  cell: (due) =>
    due.jobId !== null ? (
      task.cell(due)
    ) : (
      <label className="tick tick-line">
        <input type="checkbox" checked={has(due.id)} onChange={() => toggle(due)} />
        <span>
          {task.cell(due)}
          <span className="unseen">{due.skidName}</span>
        </span>
      </label>
    ),
});

const SKID: Column<Due> = {
  name: words.fleet.skid,
  cell: (due) => (
    <>
      <Link href={`/skids/${due.skidId}`}>{due.skidName}</Link>
      <small>
        {due.siteName}, {due.clientName}
      </small>
    </>
  ),
};
const REST: readonly Column<Due>[] = [
  { name: words.standing, cell: (due) => <StandingTag standing={due.standing} /> },
  { name: words.dues.best, numeric: true, cell: (due) => day(due.bestOn) },
  { name: words.dues.latest, numeric: true, cell: (due) => day(due.latestOn) },
  {
    name: words.reason,
    wide: true,
    cell: (due) => (
      <>
        <p>{due.reason}</p>
        <Basis due={due} />
      </>
    ),
  },
];

interface DueListProps {
  readonly dues: readonly Due[];
  readonly caption: string;
  readonly ofOneSkid?: true;
  /** Where lines can be ticked */
  readonly chosen?: Chosen;
}

/** Tasks with the reason for each in plain sight; what it was computed from can be opened. */
export function DueList({ dues, caption, ofOneSkid, chosen }: DueListProps) {
  const first = chosen === undefined ? task : taskToChoose(chosen);
  return <Sheet caption={caption} columns={ofOneSkid ? [first, ...REST] : [first, SKID, ...REST]} rows={dues} keyOf={(due) => due.id} />;
}

function Basis({ due }: { due: Due }) {
  const { computedFrom, parts, expectedMinutes, earliestOn } = due;
  if (computedFrom.length + parts.length === 0 && expectedMinutes === null) return null;
  return (
    <details className="more">
      <summary>
        {words.dues.basis} <span className="unseen">{`${due.task}, ${due.skidName}`}</span>
      </summary>
      <dl className="pairs">
        {computedFrom.map(({ name, value }) => (
          <div key={name}>
            <dt>{name}</dt>
            <dd>{value}</dd>
          </div>
        ))}
        {earliestOn !== null && (
          <div>
            <dt>{words.dues.earliest}</dt>
            <dd>{day(earliestOn)}</dd>
          </div>
        )}
        {expectedMinutes !== null && (
          <div>
            <dt>{words.dues.takes}</dt>
            <dd>{minutes(expectedMinutes)}</dd>
          </div>
        )}
        {parts.length > 0 && (
          <div>
            <dt>{words.dues.parts}</dt>
            <dd>
              {parts.map((part) => (
                <span key={part.itemId} className="line">
                  {words.dues.part(part.quantity, part.unit, part.name, part.code)}
                </span>
              ))}
            </dd>
          </div>
        )}
      </dl>
    </details>
  );
}
