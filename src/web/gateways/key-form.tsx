import { api, query, type Schemas } from '../api/client.js';
import { Field } from '../ui/field.js';
import { Trouble } from '../ui/trouble.js';
import { useEntries } from '../ui/use-entries.js';
import { gatewayWords as said } from '../words/gateways.js';
import { words } from '../words.js';

const EMPTY = { siteId: '', name: '' };

/** A key for one machine at one site; it opens that site and nothing else. */
export function KeyForm({ onMade }: { onMade: (answer: Schemas['NewGatewayKeyView']) => void }) {
  const sites = query.useQuery('get', '/api/sites', { params: { query: { limit: 200 } } });
  const form = useEntries({
    start: EMPTY,
    check: ({ siteId, name }) => ({ ...(siteId === '' ? { siteId: said.needSite } : {}), ...(name.trim() === '' ? { name: said.needName } : {}) }),
    send: ({ siteId, name }) => api.POST('/api/gateway-keys', { body: { siteId, name: name.trim() } }),
    onDone: (answer) => {
      form.setEntries(EMPTY);
      if (answer !== undefined) onMade(answer);
    },
  });
  return (
    <section className="block">
      <h2>{said.make}</h2>
      <Trouble troubles={form.troubles} attempt={form.attempt} />
      <form noValidate onSubmit={form.submit}>
        <div className="fields">
          <Field {...form.field('siteId')} label={said.site}>
            {(props) => (
              <select {...props} {...form.control('siteId')}>
                <option value="">{words.choose}</option>
                {sites.data?.items.map((site) => (
                  <option key={site.id} value={site.id}>
                    {site.name}
                  </option>
                ))}
              </select>
            )}
          </Field>
          <Field {...form.field('name')} label={said.machine} hint={said.nameHint}>
            {(props) => <input {...props} {...form.control('name')} autoComplete="off" />}
          </Field>
        </div>
        <div className="row">
          <button type="submit" className="main-button" disabled={form.isSending}>
            {said.make}
          </button>
        </div>
      </form>
    </section>
  );
}
