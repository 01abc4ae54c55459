import { Link } from 'wouter';
import { api, query, type Schemas } from '../api/client.js';
import { ifMatch } from '../api/if-match.js';
import { PageHead } from '../ui/page-head.js';
import { Loaded } from '../ui/states.js';
import { registryWords } from '../words/registry.js';
import { NEW_SKID_FIELDS, SITE_FIELDS, SITE_PRICE_FIELDS } from './fields.js';
import { RecordForm } from './record-form.js';

export default function SitePage({ siteId }: { siteId: string }) {
  const site = query.useQuery('get', '/api/sites/{id}', { params: { path: { id: siteId } } });
  const skids = query.useQuery('get', '/api/skids', { params: { query: { siteId, limit: 200 } } });
  return (
    <Loaded of={site} what={registryWords.site.toLowerCase()}>
      {(record) => (
        <>
          <PageHead title={record.name} over={<Link href={`/registry/clients/${record.clientId}`}>{record.clientName}</Link>} />
          <p>
            <Link className="target" href={`/registry/sites/${siteId}/planning`}>
              {registryWords.planning}
            </Link>
          </p>
          <section className="block">
            <h2>{registryWords.skids}</h2>
            <Loaded of={skids} what={registryWords.skids.toLowerCase()}>
              {(list) => (
                <ul className="places">
                  {list.items.map((skid) => (
                    <li key={skid.id}>
                      <Link href={`/registry/skids/${skid.id}`}>{skid.name}</Link>
                      <small>{skid.serviceState}</small>
                    </li>
                  ))}
                </ul>
              )}
            </Loaded>
            <h3>{registryWords.newSkid}</h3>
            <RecordForm
              fields={NEW_SKID_FIELDS}
              button={registryWords.add}
              send={(body: Omit<Schemas['SkidDto'], 'siteId'>) => api.POST('/api/skids', { body: { ...body, siteId } })}
            />
          </section>
          <section className="block">
            <h2>{registryWords.edit}</h2>
            <RecordForm
              key={record.version}
              fields={SITE_FIELDS}
              record={record}
              button={registryWords.save}
              send={(body: Schemas['SiteEditDto']) => api.PATCH('/api/sites/{id}', { params: { path: { id: siteId } }, headers: ifMatch(record), body })}
            />
          </section>
          <Prices siteId={siteId} />
        </>
      )}
    </Loaded>
  );
}

function Prices({ siteId }: { siteId: string }) {
  const prices = query.useQuery('get', '/api/sites/{siteId}/prices', { params: { path: { siteId } } });
  return (
    <Loaded of={prices} what={registryWords.whatPrices}>
      {(record) => (
        <section className="block">
          <h2>{registryWords.prices(record.currency)}</h2>
          <RecordForm
            key={record.version}
            fields={SITE_PRICE_FIELDS}
            record={record}
            button={registryWords.save}
            send={(body: Schemas['SitePricesDto']) => api.PUT('/api/sites/{siteId}/prices', { params: { path: { siteId } }, headers: ifMatch(record), body })}
          />
        </section>
      )}
    </Loaded>
  );
}
