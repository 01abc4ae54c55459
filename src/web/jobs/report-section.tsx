import type { Schemas } from '../api/client.js';
import { useMay } from '../session/session.js';
import { Empty } from '../ui/states.js';
import { jobWords } from '../words/jobs.js';
import { ReportCard } from './report-card.js';
import { SettleSection } from './settle-section.js';

type Job = Schemas['JobDetailView'];

/** What was reported of a job: first what waits to be settled, then the others as they were filled in. */
export function ReportSection({ job }: { job: Job }) {
  const may = useMay();
  const toSettle = may.manage ? job.reports.filter(({ state }) => state === 'second' || state === 'held') : [];
  const others = job.reports.filter((report) => !toSettle.includes(report));
  const first = job.reports.findLast(({ state }) => state === 'counts');
  return (
    <>
      {toSettle.map((report) => (
        <SettleSection key={report.id} jobId={job.id} report={report} first={first} timeZone={job.timeZone} />
      ))}
      <section className="block">
        <h2>{jobWords.reports}</h2>
        {others.length === 0 ? (
          <Empty title={jobWords.reportsNone}>{jobWords.reportsNoneWhy}</Empty>
        ) : (
          others.map((report) => <ReportCard key={report.id} report={report} timeZone={job.timeZone} />)
        )}
      </section>
    </>
  );
}
