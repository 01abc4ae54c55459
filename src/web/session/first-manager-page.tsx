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

/** The first account of an empty service, made with the token that it prints when it starts. */
export default function FirstManagerPage() {
  const client = useQueryClient();
  const [, go] = useLocation();
  const form = useEntries({
    start: { token: new URLSearchParams(location.search).get('token') ?? '', name: '', email: '', password: '' },
    check: (entries) => ({
      ...(entries.token.trim() === '' ? { token: words.session.needToken } : {}),
      ...(entries.name.trim() === '' ? { name: words.session.needName } : {}),
      ...(entries.email.trim() === '' ? { email: words.session.needEmail } : {}),
      ...passwordProblem(entries.password),
    }),
    send: (entries) =>
      api.POST('/api/first-manager', {
        body: { token: entries.token.trim(), name: entries.name.trim(), email: entries.email.trim(), password: entries.password },
      }),
    onDone: (session) => {
      client.setQueryData(SESSION_KEY, session);
      go('/');
    },
  });
  return (
    <div className="narrow">
      <PageHead title={words.session.firstManager}>
        <p className="aside">{words.session.firstManagerNote}</p>
      </PageHead>
      <Trouble troubles={form.troubles} attempt={form.attempt} />
      <form noValidate onSubmit={form.submit}>
        <Field {...form.field('token')} label={words.session.token} hint={words.session.tokenHint}>
          {(props) => <input {...props} {...form.control('token')} autoComplete="off" spellCheck={false} />}
        </Field>
        <Field {...form.field('name')} label={words.session.name}>
          {(props) => <input {...props} {...form.control('name')} autoComplete="name" />}
        </Field>
        <Field {...form.field('email')} label={words.session.email}>
          {(props) => <input {...props} {...form.control('email')} type="email" autoComplete="username" />}
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
