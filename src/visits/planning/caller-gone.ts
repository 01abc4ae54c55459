import { createParamDecorator, type ExecutionContext } from '@nestjs/common';
import type { FastifyReply } from 'fastify';

/** Aborted when the caller hangs up before the answer was written: what only they wait for need not go on. */
export const CallerGone = createParamDecorator((_: unknown, context: ExecutionContext): AbortSignal => {
  const gone = new AbortController();
  const { raw } = context.switchToHttp().getResponse<FastifyReply>();
  raw.once('close', () => {
    if (!raw.writableFinished) gone.abort();
  });
  return gone.signal;
});
