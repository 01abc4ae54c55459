import { Injectable } from '@nestjs/common';
import { Database, Gather } from '../app/index.js';
import { Ledger, type PostedOrBusy } from './ledger.js';
import { type Post, type Posted, type ReadyPost, readyPost } from './ledger-post.js';

/** Of one post, so that it may be written with others: what is read for all of them grows with items times places. */
const MOVES_AT_MOST = 20;

/**
 * Stock that people move by hand, from many hands at once: what comes while other posts are being written is written together, in one transaction. A post whose stock is held by other work
 * (a job that is being finished, a table of a thousand lines) waits for it among its like, and holds up nobody else.
 */
@Injectable()
export class PostsTogether {
  private readonly free: Gather<ReadyPost, PostedOrBusy>;
  private readonly held: Gather<ReadyPost, PostedOrBusy>;

  constructor(
    private readonly database: Database,
    private readonly ledger: Ledger,
  ) {
    const together = (waits: boolean) => (posts: readonly ReadyPost[]) => database.write((tx) => ledger.postAll(tx, posts, { waits }));
    this.free = new Gather(together(false));
    this.held = new Gather(together(true));
  }

  async post(post: Omit<Post, 'jobId'>): Promise<Posted> {
    if (post.moves.length > MOVES_AT_MOST) return this.database.write((tx) => this.ledger.post(tx, post));
    const ready = readyPost(post);
    const posted = await this.free.ask(ready);
    if (posted.kind !== 'busy') return posted;
    const waited = await this.held.ask(ready);
    if (waited.kind === 'busy') throw new Error('A post that waits for its stock is never busy');
    return waited;
  }
}
