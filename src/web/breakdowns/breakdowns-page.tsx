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
import { words } from '../words.js';

type Breakdown = Schemas['BreakdownView'];

const COLUMNS: readonly Column<Breakdown>[] = [
  {
    name: words.breakdowns.breakdown,
    cell: (one) => (
      <>
        <Link href={`/jobs/${one.jobId}`}>{one.title}</Link>
        <small>{words.jobs.no(one.no)}</small>
      </>
    ),
  },
  { name: words.breakdowns.severity, cell: (one) => <SeverityWord severity={one.severity} /> },
  {
    name: words.breakdowns.skid,
    cell: (one) => (
      <>
        <Link href={`/skids/${one.skidId}`}>{one.skidName}</Link>
        <small>
          {one.siteName}, {one.clientName}
        </small>
      </>
    ),
  },
  { name: words.breakdowns.since, numeric: true, cell: (one) => moment(one.noticedAt, one.timeZone) },
  { name: words.breakdowns.down, cell: (one) => one.downTime || words.none },
  { name: words.breakdowns.takenBy, cell: (one) => one.takenBy ?? words.breakdowns.nobody },
  { name: words.breakdowns.state, cell: (one) => <JobStateWord state={one.state} /> },
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
      <PageHead title={words.breakdowns.title} />
      <section className="block">
        <div className="block-head no-print">
          <div className="tools">
            <FindBox value={find ?? ''} onFind={(text) => choices.choose('find', text)} />
            <Choice
              label={words.breakdowns.show}
              value={open}
              options={[
                { value: 'true', label: words.breakdowns.openOnes },
                { value: 'false', label: words.breakdowns.overOnes },
              ]}
              onChoose={(value) => choices.choose('open', value)}
            />
            <Choice
              label={words.breakdowns.severity}
              value={severity}
              options={SEVERITIES.map((value) => ({ value, label: SEVERITY_LABELS[value] }))}
              onChoose={(value) => choices.choose('severity', value)}
            />
          </div>
          {may.doWork && (
            <Link className="target" href="/breakdowns/new">
              {words.breakdowns.report}
            </Link>
          )}
        </div>
        <Loaded of={list} what={words.breakdowns.what}>
          {(page) => (
            <>
              <p role="status" className="count">
                {words.breakdowns.count(number(page.total))}
              </p>
              {page.items.length > 0 ? (
                <Sheet caption={words.breakdowns.title} columns={COLUMNS} rows={page.items} keyOf={({ jobId }) => jobId} />
              ) : choices.key === '' || choices.key === 'open=true' ? (
                <Empty title={words.breakdowns.none}>{words.breakdowns.noneWhy}</Empty>
              ) : (
                <Empty title={words.breakdowns.noMatch}>{words.breakdowns.noMatchWhy}</Empty>
              )}
              <Pager paging={paging} list={page} what={words.breakdowns.what} />
            </>
          )}
        </Loaded>
      </section>
    </>
  );
}
