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
  const turn = async () => {
    for (let turns = 0; turns < 3; turns += 1) await new Promise((resolve) => setImmediate(resolve));
  };
  const end = async () => {
    ends.shift()?.();
    await turn();
  };
  return { gather, batches, turn, end };
}

test('what comes at once or while other work is under way is done together, at most so many at a time; whoever asks alone waits for nobody', async () => {
  const { gather, batches, turn, end } = gathered(3);
  const answers = [gather.ask(1), gather.ask(2)];
  await turn();
  expect(batches).toEqual([[1, 2]]);
  answers.push(...[3, 4, 5, 6].map((one) => gather.ask(one)));
  await turn();
  expect(batches).toEqual([[1, 2]]);
  await end();
  expect(batches.slice(1)).toEqual([[3, 4, 5]]);
  await end();
  await end();
  expect(batches.slice(2)).toEqual([[6]]);
  expect(await Promise.all(answers)).toEqual(['done 1', 'done 2', 'done 3', 'done 4', 'done 5', 'done 6']);
  const later = gather.ask(7);
  await turn();
  expect(batches.at(-1)).toEqual([7]);
  await end();
  expect(await later).toBe('done 7');
});

test('one that is refused changes nothing for the others', async () => {
  const { gather, turn, end } = gathered();
  const answers = Promise.allSettled([1, -2, 3].map((one) => gather.ask(one)));
  await turn();
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
