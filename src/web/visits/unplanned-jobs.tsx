import { query } from '../api/client.js';
import { number } from '../format.js';
import { columnsToPlan } from '../jobs/job-columns.js';
import { useMay } from '../session/session.js';
import { FEW_ROWS, Pager, usePaging } from '../ui/paging.js';
import { Sheet } from '../ui/sheet.js';
import { Empty, Loaded } from '../ui/states.js';
import { jobWords } from '../words/jobs.js';
import { visitWords } from '../words/visits.js';
import { PlanBar } from './plan-bar.js';
import { useChosen } from './use-chosen.js';

/** Work that no visit holds yet, what cannot wait first; a manager plans a visit from it. */
export function UnplannedJobs({ siteId }: { siteId: string | undefined }) {
  const may = useMay();
  const chosen = useChosen();
  const paging = usePaging(siteId ?? '', FEW_ROWS);
  const narrowed = { ...(siteId === undefined ? {} : { siteId }), ...(paging.cursor === undefined ? {} : { cursor: paging.cursor }) };
  const jobs = query.useQuery(
    'get',
    '/api/jobs',
    { params: { query: { unplanned: 'true', state: 'to do', limit: paging.limit, ...narrowed } } },
    { placeholderData: (before) => before },
  );
  return (
    <section className="block">
      <h2>{visitWords.unplanned}</h2>
      <Loaded of={jobs} what={visitWords.unplannedWhat}>
        {(list) =>
          list.items.length === 0 && chosen.chosen.length === 0 ? (
            <Empty title={visitWords.unplannedNone}>{visitWords.unplannedNoneWhy}</Empty>
          ) : (
            <>
              <p role="status" className="count">
                {jobWords.count(number(list.total))}
              </p>
              <Sheet caption={visitWords.unplanned} columns={columnsToPlan(may.manage ? chosen : undefined)} rows={list.items} keyOf={(job) => job.id} />
              <Pager paging={paging} list={list} what={visitWords.unplannedWhat} />
            </>
          )
        }
      </Loaded>
      {may.manage && <PlanBar chosen={chosen} kind="jobs" hint={visitWords.chooseJobs} />}
    </section>
  );
}
