import '../styles/plan.css';
import { Link } from 'wouter';
import { SEVERITIES, SEVERITY_LABELS } from '../../shared/work.js';
import { query, type Schemas } from '../api/client.js';
import { moment, number } from '../format.js';
import { SeverityWord } from '../jobs/job-columns.js';
import { JobStateWord } from '../jobs/job-state.js';
import { useMay } from '../session/session.js';
import { Choice } from '../ui/choice.js';
import { FindBox } from '../ui/find-box.js';
import { PageHead } from '../ui/page-head.js';
import { Pager, usePaging } from '../ui/paging.js';
import { type Column, Sheet } from '../ui/sheet.js';
import { Empty, Loaded } from '../ui/states.js';
import { useChoices } from '../ui/use-choices.js';
import { breakdownWords } from '../words/breakdowns.js';
import { jobWords } from '../words/jobs.js';
import { words } from '../words.js';

type Breakdown = Schemas['BreakdownView'];

const COLUMNS: readonly Column<Breakdown>[] = [
  {
    name: breakdownWords.breakdown,
    cell: (one) => (
      <>
        <Link href={`/jobs/${one.jobId}`}>{one.title}</Link>
        <small>{jobWords.no(one.no)}</small>
      </>
    ),
  },
  { name: breakdownWords.severity, cell: (one) => <SeverityWord severity={one.severity} /> },
  {
    name: breakdownWords.skid,
    cell: (one) => (
      <>
        <Link href={`/skids/${one.skidId}`}>{one.skidName}</Link>
        <small>
          {one.siteName}, {one.clientName}
        </small>
      </>
    ),
  },
  { name: breakdownWords.since, numeric: true, cell: (one) => moment(one.noticedAt, one.timeZone) },
  { name: breakdownWords.down, cell: (one) => one.downTime || words.none },
  { name: breakdownWords.takenBy, cell: (one) => one.takenBy ?? breakdownWords.nobody },
  { name: breakdownWords.state, cell: (one) => <JobStateWord state={one.state} /> },
];

/** Breakdowns, the open ones first and the worst of them first. */
export default function BreakdownsPage() {
  const may = useMay();
  const choices = useChoices<'open' | 'severity' | 'find'>();
  const paging = usePaging(choices.key);
  const open = (['true', 'false'] as const).find((one) => one === choices.of('open'));
  const severity = SEVERITIES.find((one) => one === choices.of('severity'));
  const find = choices.of('find');
  const narrowed = { ...(open && { open }), ...(severity && { severity }), ...(find && { find }), ...(paging.cursor && { cursor: paging.cursor }) };
  const list = query.useQuery('get', '/api/breakdowns', { params: { query: { limit: paging.limit, ...narrowed } } }, { placeholderData: (before) => before });
  return (
    <>
      <PageHead title={breakdownWords.title} />
      <section className="block">
        <div className="block-head no-print">
          <div className="tools">
            <FindBox value={find ?? ''} onFind={(text) => choices.choose('find', text)} />
            <Choice
              label={breakdownWords.show}
              value={open}
              options={[
                { value: 'true', label: breakdownWords.openOnes },
                { value: 'false', label: breakdownWords.overOnes },
              ]}
              onChoose={(value) => choices.choose('open', value)}
            />
            <Choice
              label={breakdownWords.severity}
              value={severity}
              options={SEVERITIES.map((value) => ({ value, label: SEVERITY_LABELS[value] }))}
              onChoose={(value) => choices.choose('severity', value)}
            />
          </div>
          {may.doWork && (
            <Link className="target" href="/breakdowns/new">
              {breakdownWords.report}
            </Link>
          )}
        </div>
        <Loaded of={list} what={breakdownWords.what}>
          {(page) => (
            <>
              <p role="status" className="count">
                {breakdownWords.count(number(page.total))}
              </p>
              {page.items.length > 0 ? (
                <Sheet caption={breakdownWords.title} columns={COLUMNS} rows={page.items} keyOf={({ jobId }) => jobId} />
              ) : choices.key === '' || choices.key === 'open=true' ? (
                <Empty title={breakdownWords.none}>{breakdownWords.noneWhy}</Empty>
              ) : (
                <Empty title={breakdownWords.noMatch}>{breakdownWords.noMatchWhy}</Empty>
              )}
              <Pager paging={paging} list={page} what={breakdownWords.what} />
            </>
          )}
        </Loaded>
      </section>
    </>
  );
}
