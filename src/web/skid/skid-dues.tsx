import { query } from '../api/client.js';
import { DueList } from '../dues/due-list.js';
import { FEW_ROWS, Pager, usePaging } from '../ui/paging.js';
import { Empty, Loaded } from '../ui/states.js';
import { words } from '../words.js';

export function SkidDues({ skidId }: { skidId: string }) {
  const paging = usePaging(skidId, FEW_ROWS);
  const dues = query.useQuery(
    'get',
    '/api/dues',
    { params: { query: { skidId, limit: paging.limit, ...(paging.cursor === undefined ? {} : { cursor: paging.cursor }) } } },
    { placeholderData: (before) => before },
  );
  return (
    <section className="block">
      <h2>{words.dues.ofSkid}</h2>
      <Loaded of={dues} what={words.dues.what}>
        {(list) => (
          <>
            {list.items.length === 0 ? (
              <Empty title={words.dues.empty}>{words.dues.emptyWhy}</Empty>
            ) : (
              <DueList dues={list.items} caption={words.dues.ofSkid} ofOneSkid />
            )}
            <Pager paging={paging} list={list} what={words.dues.what} />
          </>
        )}
      </Loaded>
    </section>
  );
}
