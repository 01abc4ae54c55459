import { join } from 'node:path';
import { afterEach, describe, expect, test } from '@jest/globals';
import { type PoolFault, WorkerPool } from './worker-pool.js';

const pools: WorkerPool[] = [];
const poolOf = (options: { size?: number; waiting?: number; limitMs?: number } = {}) => {
  const pool = new WorkerPool({ file: join(import.meta.dirname, '../../test/support/odd-worker.mjs'), size: 1, waiting: 4, limitMs: 20_000, ...options });
  pools.push(pool);
  return pool;
};
afterEach(() => Promise.all(pools.splice(0).map((pool) => pool.close())));

const threadOf = async (answer: Promise<unknown>) => ((await answer) as { threadId: number }).threadId;
const kindOf = (answer: Promise<unknown>) =>
  answer.then(
    () => 'answered',
    (fault: PoolFault) => fault.kind,
  );

describe('a pool of threads', () => {
  test('gives one task after the other to the same thread', async () => {
    const pool = poolOf();
    const [first, second] = await Promise.all([threadOf(pool.run('a')), threadOf(pool.run('b'))]);
    expect(second).toBe(first);
  });

  test('works side by side with as many threads as it may have', async () => {
    const pool = poolOf({ size: 2 });
    expect(new Set(await Promise.all([threadOf(pool.run('a')), threadOf(pool.run('b'))])).size).toBe(2);
  });

  test.each(['end', 'throw', 'fault'])('tells of a thread that does "%s", and goes on with a new one', async (message) => {
    const pool = poolOf();
    const before = await threadOf(pool.run('a'));
    const [fault, after] = await Promise.all([kindOf(pool.run(message)), threadOf(pool.run('b'))]);
    expect(fault).toBe('ended');
    expect(after).not.toBe(before);
  });

  test('ends a thread that is busy for too long, and goes on with a new one', async () => {
    const pool = poolOf({ limitMs: 1500 });
    const before = await threadOf(pool.run('a'));
    const [fault, after] = await Promise.all([kindOf(pool.run('hang')), threadOf(pool.run('b'))]);
    expect(fault).toBe('too long');
    expect(after).not.toBe(before);
  });

  test('refuses what nobody would get to soon', async () => {
    const pool = poolOf({ waiting: 1 });
    const answers = ['a', 'b', 'c'].map((message) => kindOf(pool.run(message)));
    expect(await Promise.all(answers)).toEqual(['answered', 'answered', 'full']);
  });

  test('tells those who wait that it is being stopped', async () => {
    const pool = poolOf();
    const answers = [kindOf(pool.run('silent')), kindOf(pool.run('b'))];
    await pool.close();
    expect(await Promise.all(answers)).toEqual(['ended', 'ended']);
  });
});
