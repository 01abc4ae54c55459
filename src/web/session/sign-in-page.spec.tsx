import { afterEach, describe, expect, it, jest } from '@jest/globals';
import { QueryClient, QueryClientProvider } from '@tanstack/react-query';
import { cleanup, fireEvent, render, screen, waitFor } from '@testing-library/react';
import { SESSION_KEY } from './session.js';
import { SignInPage } from './sign-in-page.js';

const answer = (status: number, body: unknown) => new Response(JSON.stringify(body), { status, headers: { 'content-type': 'application/json' } });

function show(fetch: () => Promise<Response>) {
  globalThis.fetch = jest.fn(fetch) as typeof globalThis.fetch;
  const client = new QueryClient();
  render(
    <QueryClientProvider client={client}>
      <SignInPage />
    </QueryClientProvider>,
  );
  return client;
}
const type = (label: string, value: string) => fireEvent.change(screen.getByLabelText(label), { target: { value } });
const submit = () => fireEvent.click(screen.getByRole('button', { name: 'Sign in' }));

describe('the sign-in form', () => {
  afterEach(cleanup);

  it('says at the field and above the form what is missing, and sends nothing', async () => {
    show(() => Promise.reject(new Error('not asked')));
    submit();
    const summary = await screen.findByRole('group', { name: '2 answers need a change' });
    expect(document.activeElement).toBe(summary);
    expect(screen.getByLabelText('Email address').getAttribute('aria-invalid')).toBe('true');
    expect(screen.getAllByText('Enter your password')).toHaveLength(2);
    expect(globalThis.fetch).not.toHaveBeenCalled();
  });

  it('keeps what was typed when the service refuses', async () => {
    show(() => Promise.resolve(answer(401, { status: 401, title: 'Email address or password is wrong' })));
    type('Email address', 'ada@example.test');
    type('Password', 'wrong');
    submit();
    expect(await screen.findByText('Email address or password is wrong')).toBeDefined();
    expect(screen.getByLabelText<HTMLInputElement>('Email address').value).toBe('ada@example.test');
  });

  it('says so when no answer comes', async () => {
    show(() => Promise.reject(new TypeError('Failed to fetch')));
    type('Email address', 'ada@example.test');
    type('Password', 'right');
    submit();
    expect(await screen.findByText(/did not answer/)).toBeDefined();
  });

  it('lets in whom the service knows', async () => {
    const client = show(() => Promise.resolve(answer(200, { name: 'Ada Brisk' })));
    type('Email address', 'ada@example.test');
    type('Password', 'right');
    submit();
    await waitFor(() => expect(client.getQueryData(SESSION_KEY)).toEqual({ name: 'Ada Brisk' }));
  });
});
