import { Link } from 'wouter';
import { query } from '../api/client.js';
import { number } from '../format.js';
import { words } from '../words.js';
import { FindBox } from './find-box.js';
import { PageHead } from './page-head.js';
import { Pager, usePaging } from './paging.js';
import { StandingTag } from './standing.js';
import { Empty, Loaded } from './states.js';
import { useFilter } from './use-filter.js';

/** The first step of a page that needs to know which skid is meant. */
export function SkidChooser({ title, note, pathOf }: { title: string; note: string; pathOf: (skidId: string) => string }) {
  const filter = useFilter();
  const paging = usePaging(filter.key);
  const find = filter.find === '' ? {} : { find: filter.find };
  const fleet = query.useQuery(
    'get',
    '/api/fleet',
    { params: { query: { limit: paging.limit, ...find, ...(paging.cursor === undefined ? {} : { cursor: paging.cursor }) } } },
    { placeholderData: (before) => before },
  );
  return (
    <>
      <PageHead title={title}>
        <p className="aside">{note}</p>
      </PageHead>
      <section className="block">
        <div className="tools">
          <FindBox value={filter.find} onFind={filter.setFind} />
        </div>
        <Loaded of={fleet} what={words.fleet.what}>
          {(list) => (
            <>
              <p role="status" className="count">
                {words.fleet.count(number(list.total))}
              </p>
              {list.items.length === 0 && <Empty title={words.fleet.noMatch}>{words.clearFind}</Empty>}
              <ul className="places">
                {list.items.map((skid) => (
                  <li key={skid.skidId}>
                    <Link href={pathOf(skid.skidId)}>{skid.name}</Link>
                    <small>
                      {skid.siteName}, {skid.clientName}
                    </small>
                    <StandingTag standing={skid.standing} />
                  </li>
                ))}
              </ul>
              <Pager paging={paging} list={list} what={words.fleet.what} />
            </>
          )}
        </Loaded>
      </section>
    </>
  );
}
