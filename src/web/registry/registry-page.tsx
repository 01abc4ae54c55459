import { Link } from 'wouter';
import { api, query, type Schemas } from '../api/client.js';
import { FindBox } from '../ui/find-box.js';
import { PageHead } from '../ui/page-head.js';
import { Pager, usePaging } from '../ui/paging.js';
import { Empty, Loaded } from '../ui/states.js';
import { useFilter } from '../ui/use-filter.js';
import { registryWords } from '../words/registry.js';
import { words } from '../words.js';
import { CLIENT_FIELDS } from './fields.js';
import { RecordForm } from './record-form.js';

/** The way into what is registered: clients, and below each its sites and skids. */
export default function RegistryPage() {
  const filter = useFilter();
  const paging = usePaging(filter.key);
  const find = filter.find === '' ? {} : { find: filter.find };
  const clients = query.useQuery(
    'get',
    '/api/clients',
    { params: { query: { limit: paging.limit, ...find, ...(paging.cursor === undefined ? {} : { cursor: paging.cursor }) } } },
    { placeholderData: (before) => before },
  );
  return (
    <>
      <PageHead title={registryWords.title} />
      <section className="block">
        <h2>{registryWords.clients}</h2>
        <div className="tools">
          <FindBox value={filter.find} onFind={filter.setFind} />
        </div>
        <Loaded of={clients} what={registryWords.clients.toLowerCase()}>
          {(list) => (
            <>
              {list.items.length === 0 && filter.key === '' && <Empty title={registryWords.noClients}>{registryWords.noClientsWhy}</Empty>}
              {list.items.length === 0 && filter.key !== '' && <Empty title={registryWords.noMatch}>{words.clearFind}</Empty>}
              <ul className="places">
                {list.items.map((client) => (
                  <li key={client.id}>
                    <Link href={`/registry/clients/${client.id}`}>{client.name}</Link>
                  </li>
                ))}
              </ul>
              <Pager paging={paging} list={list} what={registryWords.clients.toLowerCase()} />
            </>
          )}
        </Loaded>
      </section>
      <section className="block">
        <h2>{registryWords.newClient}</h2>
        <RecordForm fields={CLIENT_FIELDS} button={registryWords.add} send={(body: Schemas['ClientDto']) => api.POST('/api/clients', { body })} />
      </section>
    </>
  );
}
