import { useCallback, useRef } from 'react';

type Sent<Answer> = { data?: Answer; error?: unknown; response: Response };

/** A call that takes long and may be stopped. Stopped, it is over without an answer and without a fault. */
export function useStoppable() {
  const running = useRef<AbortController>(undefined);
  const send = async <Answer>(call: (signal: AbortSignal) => Promise<Sent<Answer>>): Promise<Sent<Answer>> => {
    const own = new AbortController();
    running.current = own;
    try {
      return await call(own.signal);
    } catch (thrown) {
      if (own.signal.aborted) return { response: new Response(null, { status: 204 }) };
      throw thrown;
    }
  };
  const stop = useCallback(() => running.current?.abort(), []);
  return { send, stop };
}
