import { useId } from 'react';
import type { Schemas } from '../api/client.js';
import { minutes, moment } from '../format.js';
import { jobWords } from '../words/jobs.js';

type Report = Schemas['JobReportView'];

/** A report as it was filled in; what lies outside its limits, was left out or answered with no is said beside it. */
export function ReportCard({ report, timeZone, title = jobWords.reportBy(report.by) }: { report: Report; timeZone: string; title?: string }) {
  const headId = useId();
  return (
    <article className="report" aria-labelledby={headId}>
      <h3 id={headId}>{title}</h3>
      <dl className="pairs">
        {factsOf(report, timeZone).map(({ name, value }) => (
          <div key={name}>
            <dt>{name}</dt>
            <dd>{value}</dd>
          </div>
        ))}
      </dl>
      {report.problems.length > 0 && (
        <div className="note-box">
          <p>
            <strong>{jobWords.problems}</strong>
          </p>
          <ul className="plain">
            {report.problems.map(({ pointer, message }) => (
              <li key={`${pointer} ${message}`}>{message}</li>
            ))}
          </ul>
        </div>
      )}
      {report.note !== '' && <p className="text">{report.note}</p>}
      {report.tasks.map((task) => (
        <div key={`${task.task} ${task.positionName}`}>
          <h4>{jobWords.tasksDone(task.task, task.positionName)}</h4>
          <p>{[task.outcome, task.note].filter(Boolean).join(': ')}</p>
          <Lines lines={task.steps} />
        </div>
      ))}
      {report.lines.length > 0 && (
        <div>
          <h4>{jobWords.others}</h4>
          <Lines lines={report.lines} />
        </div>
      )}
    </article>
  );
}

const factsOf = (report: Report, timeZone: string) => [
  { name: jobWords.by, value: report.by },
  { name: jobWords.reportFacts.state, value: jobWords.reportStates[report.state] ?? report.state },
  { name: jobWords.reportFacts.time, value: jobWords.fromTo(moment(report.startedAt, timeZone), moment(report.finishedAt, timeZone)) },
  { name: jobWords.reportFacts.minutes, value: minutes(report.minutes) },
  { name: jobWords.reportFacts.signed, value: report.signedBy || jobWords.unsigned },
  { name: jobWords.reportFacts.received, value: moment(report.receivedAt, timeZone) },
];

function Lines({ lines }: { lines: readonly Schemas['SummaryLineView'][] }) {
  if (lines.length === 0) return null;
  return (
    <dl className="answers">
      {lines.map(({ name, value, mark }, at) => (
        // Two steps may read alike, and their order is that of the sheet.
        <div key={at} className={mark === null ? undefined : 'marked'}>
          <dt>{name}</dt>
          <dd>
            {value}
            {mark !== null && <strong> {mark}</strong>}
          </dd>
        </div>
      ))}
    </dl>
  );
}
