import { useQueryClient } from '@tanstack/react-query';
import { api } from '../api/client.js';
import { Field } from '../ui/field.js';
import { PageHead } from '../ui/page-head.js';
import { Trouble } from '../ui/trouble.js';
import { useEntries } from '../ui/use-entries.js';
import { words } from '../words.js';
import { SESSION_KEY } from './session.js';

export function SignInPage() {
  const client = useQueryClient();
  const form = useEntries({
    start: { email: '', password: '' },
    check: ({ email, password }) => ({
      ...(email.trim() === '' ? { email: words.session.needEmail } : {}),
      ...(password === '' ? { password: words.session.needPassword } : {}),
    }),
    send: ({ email, password }) => api.POST('/api/session', { body: { email: email.trim(), password } }),
    onDone: (session) => client.setQueryData(SESSION_KEY, session),
  });
  return (
    <div className="narrow">
      <PageHead title={words.session.signIn} />
      <Trouble troubles={form.troubles} attempt={form.attempt} />
      <form noValidate onSubmit={form.submit}>
        <Field {...form.field('email')} label={words.session.email}>
          {(props) => <input {...props} {...form.control('email')} type="email" autoComplete="username" />}
        </Field>
        <Field {...form.field('password')} label={words.session.password}>
          {(props) => <input {...props} {...form.control('password')} type="password" autoComplete="current-password" />}
        </Field>
        <div className="row">
          <button type="submit" className="main-button" disabled={form.isSending}>
            {words.session.signIn}
          </button>
        </div>
      </form>
    </div>
  );
}
