import '../styles/plan.css';
import { Link } from 'wouter';
import { JOB_KINDS, JOB_STATES } from '../../shared/work.js';
import { query } from '../api/client.js';
import { number } from '../format.js';
import { useMay } from '../session/session.js';
import { Choice } from '../ui/choice.js';
import { FindBox } from '../ui/find-box.js';
import { PageHead } from '../ui/page-head.js';
import { Pager, usePaging } from '../ui/paging.js';
import { Sheet } from '../ui/sheet.js';
import { Empty, Loaded } from '../ui/states.js';
import { useChoices } from '../ui/use-choices.js';
import { jobWords } from '../words/jobs.js';
import { JOB_COLUMNS } from './job-columns.js';

const STATES = ['to do', ...JOB_STATES] as const;

/** Every job, what is to be done first and most urgent. */
export default function JobsPage() {
  const may = useMay();
  const choices = useChoices<'state' | 'kind' | 'find'>();
  const paging = usePaging(choices.key);
  const state = STATES.find((one) => one === choices.of('state'));
  const kind = JOB_KINDS.find((one) => one === choices.of('kind'));
  const find = choices.of('find');
  const narrowed = { ...(state && { state }), ...(kind && { kind }), ...(find && { find }), ...(paging.cursor && { cursor: paging.cursor }) };
  const jobs = query.useQuery('get', '/api/jobs', { params: { query: { limit: paging.limit, ...narrowed } } }, { placeholderData: (before) => before });
  return (
    <>
      <PageHead title={jobWords.title} />
      <section className="block">
        <div className="block-head no-print">
          <div className="tools">
            <FindBox value={find ?? ''} onFind={(text) => choices.choose('find', text)} />
            <Choice
              label={jobWords.state}
              value={state}
              options={STATES.map((value) => ({ value, label: value === 'to do' ? jobWords.toDo : jobWords.states[value] }))}
              onChoose={(value) => choices.choose('state', value)}
            />
            <Choice
              label={jobWords.kind}
              value={kind}
              options={JOB_KINDS.map((value) => ({ value, label: jobWords.kinds[value] }))}
              onChoose={(value) => choices.choose('kind', value)}
            />
          </div>
          {may.manage && (
            <Link className="target" href="/jobs/new">
              {jobWords.make}
            </Link>
          )}
        </div>
        <Loaded of={jobs} what={jobWords.what}>
          {(list) => (
            <>
              <p role="status" className="count">
                {jobWords.count(number(list.total))}
              </p>
              {list.items.length > 0 ? (
                <Sheet caption={jobWords.title} columns={JOB_COLUMNS} rows={list.items} keyOf={(job) => job.id} />
              ) : choices.key === '' ? (
                <Empty title={jobWords.none}>{jobWords.noneWhy}</Empty>
              ) : (
                <Empty title={jobWords.noMatch}>{jobWords.noMatchWhy}</Empty>
              )}
              <Pager paging={paging} list={list} what={jobWords.what} />
            </>
          )}
        </Loaded>
      </section>
    </>
  );
}
