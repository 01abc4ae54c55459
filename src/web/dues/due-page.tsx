import { query } from '../api/client.js';
import { number } from '../format.js';
import { useMay } from '../session/session.js';
import { Choice } from '../ui/choice.js';
import { FindBox } from '../ui/find-box.js';
import { PageHead } from '../ui/page-head.js';
import { Pager, usePaging } from '../ui/paging.js';
import { StandingFilter } from '../ui/standing-filter.js';
import { Empty, Loaded } from '../ui/states.js';
import { useChoices } from '../ui/use-choices.js';
import { useFilter } from '../ui/use-filter.js';
import { PlanBar } from '../visits/plan-bar.js';
import { useChosen } from '../visits/use-chosen.js';
import { visitWords } from '../words/visits.js';
import { words } from '../words.js';
import { DueList } from './due-list.js';

export default function DuePage() {
  const may = useMay();
  const chosen = useChosen();
  const filter = useFilter();
  const choices = useChoices<'site'>();
  const siteId = choices.of('site');
  const paging = usePaging(filter.key);
  const dues = query.useQuery(
    'get',
    '/api/dues',
    {
      params: {
        query: {
          limit: paging.limit,
          ...filter.query,
          ...(siteId === undefined ? {} : { siteId }),
          ...(paging.cursor === undefined ? {} : { cursor: paging.cursor }),
        },
      },
    },
    { placeholderData: (before) => before },
  );
  return (
    <>
      <PageHead title={words.dues.title} />
      <section className="block">
        <div className="tools no-print">
          <FindBox value={filter.find} onFind={filter.setFind} />
          <StandingFilter value={filter.standing} onChoose={filter.setStanding} />
          <SiteChoice value={siteId} onChoose={(id) => choices.choose('site', id)} />
        </div>
        <Loaded of={dues} what={words.dues.what}>
          {(list) => (
            <>
              <p role="status" className="count">
                {words.dues.count(number(list.total))}
              </p>
              {list.items.length > 0 ? (
                <DueList dues={list.items} caption={words.dues.title} {...(may.manage ? { chosen } : {})} />
              ) : filter.key === '' ? (
                <Empty title={words.dues.empty}>{words.dues.emptyWhy}</Empty>
              ) : (
                <Empty title={words.dues.noMatch}>{words.clearFilter}</Empty>
              )}
              <Pager paging={paging} list={list} what={words.dues.what} />
              {may.manage && <PlanBar chosen={chosen} kind="dues" hint={visitWords.chooseDues} />}
            </>
          )}
        </Loaded>
      </section>
    </>
  );
}

function SiteChoice({ value, onChoose }: { value: string | undefined; onChoose: (id: string) => void }) {
  const sites = query.useQuery('get', '/api/sites', { params: { query: { limit: 200 } } });
  const options = (sites.data?.items ?? []).map(({ id, name }) => ({ value: id, label: name }));
  return <Choice label={visitWords.site} value={value} options={options} all={visitWords.everySite} onChoose={onChoose} />;
}
