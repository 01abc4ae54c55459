import { useQueryClient } from '@tanstack/react-query';
import { useState } from 'react';
import { problemOf } from '../api/problem.js';

type Call<Answer> = () => Promise<{ data?: Answer; error?: unknown; response: Response }>;

/** One call by a press of a button: whether it is on its way, and why it was refused. All that is shown is read again afterwards. */
export function useCall() {
  const client = useQueryClient();
  const [isBusy, setBusy] = useState(false);
  const [problem, setProblem] = useState('');
  const call = async <Answer>(send: Call<Answer>, onDone?: (answer: Answer | undefined) => void): Promise<void> => {
    setBusy(true);
    const { data, error, response } = await send().catch((thrown: unknown) => ({ data: undefined, error: thrown, response: Response.error() }));
    setBusy(false);
    const found = problemOf(error);
    setProblem(response.ok ? '' : [found.title, ...found.errors.map(({ message }) => message)].join(': '));
    if (!response.ok) return;
    onDone?.(data);
    await client.invalidateQueries();
  };
  return { call, isBusy, problem };
}
