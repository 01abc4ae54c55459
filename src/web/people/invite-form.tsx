import { useQueryClient } from '@tanstack/react-query';
import { api, query } from '../api/client.js';
import { Field } from '../ui/field.js';
import { Trouble } from '../ui/trouble.js';
import { useEntries } from '../ui/use-entries.js';
import { registryWords } from '../words/registry.js';
import { words } from '../words.js';
import type { Link } from './link.js';

const ROLES = ['technician', 'storekeeper', 'manager', 'client'] as const;
const EMPTY = { name: '', email: '', role: 'technician', clientId: '', siteId: '', mayEnterReadings: '' };

/** Somebody new: the answer is a link, which the manager passes on. */
export function InviteForm({ onLink }: { onLink: (link: Link) => void }) {
  const client = useQueryClient();
  const clients = query.useQuery('get', '/api/clients', { params: { query: { limit: 200 } } });
  const form = useEntries({
    start: EMPTY,
    check: (entries) => ({
      ...(entries.name.trim() === '' ? { name: words.people.needName } : {}),
      ...(entries.email.trim() === '' ? { email: words.people.needEmail } : {}),
      ...(entries.role === 'client' && entries.clientId === '' ? { clientId: words.people.needClient } : {}),
    }),
    send: ({ name, email, role, clientId, siteId, mayEnterReadings }) =>
      api.POST('/api/people', {
        body: {
          name: name.trim(),
          email: email.trim(),
          role: ROLES.find((one) => one === role) ?? 'technician',
          ...(role === 'client' ? { clientId, siteId: siteId === '' ? null : siteId, mayEnterReadings: mayEnterReadings === 'yes' } : {}),
        },
      }),
    onDone: (invitation) => {
      form.setEntries(EMPTY);
      if (invitation !== undefined) onLink({ name: invitation.person.name, path: invitation.path, expiresAt: invitation.expiresAt });
      void client.invalidateQueries({ queryKey: ['get', '/api/people'] });
    },
  });
  const { role, clientId } = form.entries;
  const sites = query.useQuery('get', '/api/sites', { params: { query: { clientId, limit: 200 } } }, { enabled: clientId !== '' });
  return (
    <section className="block">
      <h2>{words.people.invite}</h2>
      <Trouble troubles={form.troubles} attempt={form.attempt} />
      <form noValidate onSubmit={form.submit}>
        <div className="fields">
          <Field {...form.field('name')} label={words.people.name}>
            {(props) => <input {...props} {...form.control('name')} autoComplete="off" />}
          </Field>
          <Field {...form.field('email')} label={words.session.email}>
            {(props) => <input {...props} {...form.control('email')} type="email" autoComplete="off" />}
          </Field>
          <Field {...form.field('role')} label={words.people.role}>
            {(props) => (
              <select {...props} {...form.control('role')}>
                {ROLES.map((one) => (
                  <option key={one} value={one}>
                    {words.people.roles[one]}
                  </option>
                ))}
              </select>
            )}
          </Field>
          {role === 'client' && (
            <>
              <Field {...form.field('clientId')} label={registryWords.client}>
                {(props) => (
                  <select {...props} {...form.control('clientId')}>
                    <option value="">{words.choose}</option>
                    {clients.data?.items.map((each) => (
                      <option key={each.id} value={each.id}>
                        {each.name}
                      </option>
                    ))}
                  </select>
                )}
              </Field>
              <Field {...form.field('siteId')} label={registryWords.site} hint={words.people.siteHint}>
                {(props) => (
                  <select {...props} {...form.control('siteId')}>
                    <option value="">{words.people.everySite}</option>
                    {sites.data?.items.map((each) => (
                      <option key={each.id} value={each.id}>
                        {each.name}
                      </option>
                    ))}
                  </select>
                )}
              </Field>
              <Field {...form.field('mayEnterReadings')} label={words.people.readings}>
                {(props) => (
                  <select {...props} {...form.control('mayEnterReadings')}>
                    <option value="">{words.no}</option>
                    <option value="yes">{words.yes}</option>
                  </select>
                )}
              </Field>
            </>
          )}
        </div>
        <div className="row">
          <button type="submit" className="main-button" disabled={form.isSending}>
            {words.people.invite}
          </button>
        </div>
      </form>
    </section>
  );
}
