import { createHash } from 'node:crypto';
import { isUUID } from 'class-validator';
import { DomainError, InvalidRequest } from '../errors/errors.js';

class KeyReused extends DomainError {
  readonly code = 'idempotency/key-reused';
  readonly status = 422;
}

class StillRunning extends DomainError {
  readonly code = 'idempotency/still-running';
  readonly status = 409;
}

/** One transaction, of Prisma or of `pg`. */
export interface Sql {
  query<Row>(text: string, values: readonly unknown[]): Promise<Row[]>;
}

export interface KeyedRequest {
  readonly callerId: string;
  readonly key: string | undefined;
  /** All that makes the request what it is: method, address, body or its hash */
  readonly request: unknown;
}

/**
 * Carries a request out once for each Idempotency-Key of a caller, inside the transaction of the work: the answer is stored if and
 * only if the work is. Without a key the work is simply done. A second request while the first runs is refused, not kept waiting.
 */
export async function once<T>(sql: Sql, { callerId, key, request }: KeyedRequest, work: () => Promise<T>): Promise<T> {
  if (key === undefined) return work();
  checkKey(key);
  const [lock] = await sql.query<{ free: boolean }>('SELECT pg_try_advisory_xact_lock(hashtextextended($1, 0)) AS free', [`${callerId} ${key}`]);
  if (lock?.free !== true) throw new StillRunning('The first request with this Idempotency-Key is still running');
  const earlier = await earlierAnswer<T>(sql, { callerId, key, request });
  if (earlier !== undefined) return earlier.answer;
  const answer = await work();
  await sql.query('INSERT INTO idempotent_request (caller, key, request_hash, status, response) VALUES ($1, $2::uuid, $3, 200, $4::jsonb)', [
    callerId,
    key,
    hashOf(request),
    JSON.stringify(answer),
  ]);
  return answer;
}

/** What an earlier request with the key was answered; undefined where there was none. */
export async function earlierAnswer<T>(sql: Sql, { callerId, key, request }: KeyedRequest): Promise<{ answer: T } | undefined> {
  if (key === undefined) return undefined;
  checkKey(key);
  const [earlier] = await sql.query<{ request_hash: string; response: T }>(
    'SELECT request_hash, response FROM idempotent_request WHERE caller = $1 AND key = $2::uuid',
    [callerId, key],
  );
  if (earlier === undefined) return undefined;
  if (earlier.request_hash !== hashOf(request)) throw new KeyReused('This Idempotency-Key was used with another request');
  return { answer: earlier.response };
}

const hashOf = (request: unknown) => createHash('sha256').update(JSON.stringify(request)).digest('hex');

function checkKey(key: string): void {
  if (!isUUID(key)) throw new InvalidRequest(`Idempotency-Key must be a UUID, not "${key}"`);
}
