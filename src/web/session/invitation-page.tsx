import { useQueryClient } from '@tanstack/react-query';
import { useLocation } from 'wouter';
import { api } from '../api/client.js';
import { Field } from '../ui/field.js';
import { PageHead } from '../ui/page-head.js';
import { Trouble } from '../ui/trouble.js';
import { useEntries } from '../ui/use-entries.js';
import { words } from '../words.js';
import { passwordProblem } from './password.js';
import { SESSION_KEY } from './session.js';

/** Somebody who was invited chooses a password, and is in. */
export default function InvitationPage({ token }: { token: string }) {
  const client = useQueryClient();
  const [, go] = useLocation();
  const form = useEntries({
    start: { name: '', password: '' },
    check: ({ password }) => passwordProblem(password),
    send: ({ name, password }) =>
      api.POST('/api/invitations/{token}', { params: { path: { token } }, body: { password, ...(name.trim() === '' ? {} : { name: name.trim() }) } }),
    onDone: (session) => {
      client.setQueryData(SESSION_KEY, session);
      go('/');
    },
  });
  return (
    <div className="narrow">
      <PageHead title={words.session.invitation}>
        <p className="aside">{words.session.invitationNote}</p>
      </PageHead>
      <Trouble troubles={form.troubles} attempt={form.attempt} />
      <form noValidate onSubmit={form.submit}>
        <Field {...form.field('name')} label={words.session.name} hint={words.session.nameHint}>
          {(props) => <input {...props} {...form.control('name')} autoComplete="name" />}
        </Field>
        <Field {...form.field('password')} label={words.session.password} hint={words.session.passwordHint}>
          {(props) => <input {...props} {...form.control('password')} type="password" autoComplete="new-password" />}
        </Field>
        <div className="row">
          <button type="submit" className="main-button" disabled={form.isSending}>
            {words.session.makeAccount}
          </button>
        </div>
      </form>
    </div>
  );
}
