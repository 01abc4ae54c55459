import { query } from '../api/client.js';
import { number } from '../format.js';
import { FindBox } from '../ui/find-box.js';
import { PageHead } from '../ui/page-head.js';
import { Pager, usePaging } from '../ui/paging.js';
import { Empty, Loaded } from '../ui/states.js';
import { useFilter } from '../ui/use-filter.js';
import { words } from '../words.js';
import { CoverList } from './cover-list.js';

export default function ChemicalsPage() {
  const filter = useFilter();
  const paging = usePaging(filter.key);
  const find = filter.find === '' ? {} : { find: filter.find };
  const tanks = query.useQuery(
    'get',
    '/api/tanks/cover',
    { params: { query: { limit: paging.limit, ...find, ...(paging.cursor === undefined ? {} : { cursor: paging.cursor }) } } },
    { placeholderData: (before) => before },
  );
  return (
    <>
      <PageHead title={words.chemicals.title} />
      <section className="block">
        <div className="tools no-print">
          <FindBox value={filter.find} onFind={filter.setFind} />
        </div>
        <Loaded of={tanks} what={words.chemicals.what}>
          {(list) => (
            <>
              <p role="status" className="count">
                {words.chemicals.count(number(list.total))}
              </p>
              {list.items.length > 0 ? (
                <CoverList tanks={list.items} caption={words.chemicals.title} />
              ) : filter.find === '' ? (
                <Empty title={words.chemicals.empty}>{words.chemicals.emptyWhy}</Empty>
              ) : (
                <Empty title={words.chemicals.noMatch}>{words.clearFind}</Empty>
              )}
              <Pager paging={paging} list={list} what={words.chemicals.what} />
            </>
          )}
        </Loaded>
      </section>
    </>
  );
}
