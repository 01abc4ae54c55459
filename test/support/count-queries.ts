import pg from 'pg';

/** The background queue looks for work whenever it likes. */
const ofQueue = (asked: unknown) => String(typeof asked === 'string' ? asked : (asked as { text?: unknown } | undefined)?.text).includes('pgboss');

/** How many statements are sent to the database meanwhile, those that begin and end transactions too. */
export async function countQueries(work: () => PromiseLike<unknown>): Promise<number> {
  const original = pg.Client.prototype.query;
  let queries = 0;
  pg.Client.prototype.query = function (this: pg.Client, ...args: unknown[]) {
    if (!ofQueue(args[0])) queries += 1;
    return Reflect.apply(original, this, args);
  } as typeof original;
  try {
    await work();
  } finally {
    pg.Client.prototype.query = original;
  }
  return queries;
}
