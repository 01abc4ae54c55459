import { createParamDecorator, type ExecutionContext, Injectable } from '@nestjs/common';
import { ApiHeader } from '@nestjs/swagger';
import type { SqlRunner } from '../background/queue.js';
import { Database, type Reader } from '../database/database.js';
import type { RequestWithCaller } from '../identity/allow.js';
import { earlierAnswer, type KeyedRequest, once, type Sql } from './idempotency.js';

/** What makes the request the same as another one of its caller. */
export const RequestKey = createParamDecorator((_: unknown, context: ExecutionContext): KeyedRequest => {
  const { caller, method, url, body, headers } = context.switchToHttp().getRequest<RequestWithCaller>();
  if (caller === undefined) throw new Error('A request without a caller has no key');
  const key = headers['idempotency-key'];
  return { callerId: caller.id, key: Array.isArray(key) ? key.join() : key, request: { method, url, body } };
});

/** Says in the description of the API that the route knows the header. */
export const TakesRequestKey = () =>
  ApiHeader({
    name: 'Idempotency-Key',
    required: false,
    description: 'A UUID of the caller’s making. A request sent again with the same key is carried out once',
  });

/** Statements inside a transaction of Prisma, for `Recompute.later`. */
export const runnerOf = (tx: Reader): SqlRunner => ({
  query: async (text, values = []) => ({ rows: await tx.$queryRawUnsafe<unknown[]>(text, ...values.map((value) => value ?? null)) }),
});

const sqlOf = (tx: Reader): Sql => ({ query: (text, values) => tx.$queryRawUnsafe(text, ...values) });

/** Work in one transaction of Prisma, carried out once for each key. */
@Injectable()
export class KeyedWork {
  constructor(private readonly database: Database) {}

  run<T>(request: KeyedRequest, work: (tx: Reader) => Promise<T>): Promise<T> {
    return this.database.write((tx) => once(sqlOf(tx), request, () => work(tx)));
  }

  /** The answer to an earlier request with the key: asked before work that takes too long for one transaction, whose outcome alone is then stored with `run`. */
  earlier<T>(request: KeyedRequest): Promise<{ answer: T } | undefined> {
    return earlierAnswer<T>(sqlOf(this.database.prisma), request);
  }
}
