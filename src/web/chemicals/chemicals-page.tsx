import { Link } from 'wouter';
import { query } from '../api/client.js';
import { number } from '../format.js';
import { Choice } from '../ui/choice.js';
import { FindBox } from '../ui/find-box.js';
import { PageHead } from '../ui/page-head.js';
import { Pager, usePaging } from '../ui/paging.js';
import { Empty, Loaded } from '../ui/states.js';
import { useChoices } from '../ui/use-choices.js';
import { useFilter } from '../ui/use-filter.js';
import { chemicalWords } from '../words/chemicals.js';
import { words } from '../words.js';
import { CoverList } from './cover-list.js';

const SUPPLIERS = ['us', 'client'] as const;

export default function ChemicalsPage() {
  const filter = useFilter();
  const choices = useChoices<'site' | 'filledBy'>();
  const paging = usePaging(filter.key);
  const sites = query.useQuery('get', '/api/sites', { params: { query: { limit: 200 } } });
  const [siteId, filledBy] = [choices.of('site'), choices.of('filledBy')];
  const suppliedBy = SUPPLIERS.find((one) => one === filledBy);
  const asked = {
    ...(filter.find === '' ? {} : { find: filter.find }),
    ...(siteId === undefined ? {} : { siteId }),
    ...(suppliedBy === undefined ? {} : { suppliedBy }),
  };
  const tanks = query.useQuery(
    'get',
    '/api/tanks/cover',
    { params: { query: { limit: paging.limit, ...asked, ...(paging.cursor === undefined ? {} : { cursor: paging.cursor }) } } },
    { placeholderData: (before) => before },
  );
  return (
    <>
      <PageHead title={words.chemicals.title} />
      <section className="block">
        <div className="tools no-print">
          <Choice
            label={chemicalWords.site}
            value={siteId}
            options={(sites.data?.items ?? []).map(({ id, name }) => ({ value: id, label: name }))}
            all={chemicalWords.everySite}
            onChoose={(value) => choices.choose('site', value)}
          />
          <Choice
            label={chemicalWords.suppliedBy}
            value={suppliedBy}
            options={Object.entries(chemicalWords.suppliers).map(([value, label]) => ({ value, label }))}
            all={chemicalWords.anybody}
            onChoose={(value) => choices.choose('filledBy', value)}
          />
          <FindBox value={filter.find} onFind={filter.setFind} />
          <a href={`/api/tanks/cover.csv?${new URLSearchParams(asked).toString()}`} download>
            {chemicalWords.exportTable}
          </a>
          <Link href="/calculators">{chemicalWords.calculators}</Link>
        </div>
        <Loaded of={tanks} what={words.chemicals.what}>
          {(list) => (
            <>
              <p role="status" className="count">
                {words.chemicals.count(number(list.total))}
              </p>
              {list.items.length > 0 ? (
                <CoverList tanks={list.items} caption={words.chemicals.title} />
              ) : Object.keys(asked).length === 0 ? (
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
