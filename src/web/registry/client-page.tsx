import { Link } from 'wouter';
import { api, query, type Schemas } from '../api/client.js';
import { ifMatch } from '../api/if-match.js';
import { PageHead } from '../ui/page-head.js';
import { Loaded } from '../ui/states.js';
import { registryWords } from '../words/registry.js';
import { CLIENT_FIELDS, SITE_FIELDS } from './fields.js';
import { RecordForm } from './record-form.js';

export default function ClientPage({ clientId }: { clientId: string }) {
  const client = query.useQuery('get', '/api/clients/{id}', { params: { path: { id: clientId } } });
  const sites = query.useQuery('get', '/api/sites', { params: { query: { clientId, limit: 200 } } });
  return (
    <Loaded of={client} what={registryWords.client.toLowerCase()}>
      {(record) => (
        <>
          <PageHead title={record.name} over={<Link href="/registry">{registryWords.title}</Link>} />
          <section className="block">
            <h2>{registryWords.sites}</h2>
            <Loaded of={sites} what={registryWords.sites.toLowerCase()}>
              {(list) => (
                <ul className="places">
                  {list.items.map((site) => (
                    <li key={site.id}>
                      <Link href={`/registry/sites/${site.id}`}>{site.name}</Link>
                      <small>{site.timeZone}</small>
                    </li>
                  ))}
                </ul>
              )}
            </Loaded>
            <h3>{registryWords.newSite}</h3>
            <RecordForm
              fields={SITE_FIELDS}
              button={registryWords.add}
              send={(body: Omit<Schemas['SiteDto'], 'clientId'>) => api.POST('/api/sites', { body: { ...body, clientId } })}
            />
          </section>
          <section className="block">
            <h2>{registryWords.edit}</h2>
            <RecordForm
              key={record.version}
              fields={CLIENT_FIELDS}
              record={record}
              button={registryWords.save}
              send={(body: Schemas['ClientEditDto']) => api.PATCH('/api/clients/{id}', { params: { path: { id: clientId } }, headers: ifMatch(record), body })}
            />
          </section>
        </>
      )}
    </Loaded>
  );
}
