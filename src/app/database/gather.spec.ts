import { expect, test } from '@jest/globals';
import fc from 'fast-check';
import { Gather } from './gather.js';

/** Work that ends when it is told to. */
function gathered(most?: number) {
  const batches: (readonly number[])[] = [];
  const ends: (() => void)[] = [];
  const gather = new Gather<number, string>(async (asked) => {
    batches.push(asked);
    await new Promise<void>((resolve) => ends.push(resolve));
    return asked.map((one) => (one < 0 ? { status: 'rejected', reason: new Error(`not ${one}`) } : { status: 'fulfilled', value: `done ${one}` }));
  }, most);
  const end = async () => {
    ends.shift()?.();
    for (let turns = 0; turns < 5; turns += 1) await Promise.resolve();
  };
  return { gather, batches, end };
}

test('whoever asks alone waits for nobody; what comes meanwhile is done together, at most so many at a time', async () => {
  const { gather, batches, end } = gathered(3);
  const answers = [1, 2, 3, 4, 5].map((one) => gather.ask(one));
  expect(batches).toEqual([[1]]);
  await end();
  expect(batches).toEqual([[1], [2, 3, 4]]);
  await end();
  await end();
  expect(batches).toEqual([[1], [2, 3, 4], [5]]);
  expect(await Promise.all(answers)).toEqual(['done 1', 'done 2', 'done 3', 'done 4', 'done 5']);
  const later = gather.ask(6);
  expect(batches.at(-1)).toEqual([6]);
  await end();
  expect(await later).toBe('done 6');
});

test('one that is refused changes nothing for the others', async () => {
  const { gather, end } = gathered();
  const answers = Promise.allSettled([1, -2, 3].map((one) => gather.ask(one)));
  await end();
  await end();
  expect((await answers).map(({ status }) => status)).toEqual(['fulfilled', 'rejected', 'fulfilled']);
});

test('where the work fails as a whole each is tried alone', () =>
  fc.assert(
    fc.asyncProperty(fc.array(fc.boolean(), { minLength: 1, maxLength: 12 }), async (fails) => {
      const gather = new Gather<number, number>(async (asked) => {
        await Promise.resolve();
        if (asked.some((one) => fails[one])) throw new Error('as a whole');
        return asked.map((value) => ({ status: 'fulfilled', value }));
      });
      const answers = await Promise.allSettled(fails.map((_, at) => gather.ask(at)));
      expect(answers.map(({ status }) => status === 'rejected')).toEqual(fails);
    }),
    { numRuns: 30 },
  ));

test('work that loses an answer leaves nobody waiting', async () => {
  const gather = new Gather<number, number>(async () => []);
  await expect(gather.ask(1)).rejects.toThrow(/0 answered/);
});
