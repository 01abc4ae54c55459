import { Injectable, Logger } from '@nestjs/common';
import { Queue, type SqlRunner } from '../app/index.js';
import { MakeDigests } from './make-digests.js';
import { RemindOfVisits } from './remind-of-visits.js';
import { SendMail } from './send-mail.js';
import { TellAtOnce } from './tell-at-once.js';
import { TellDeclines } from './tell-declines.js';

const NOTICES = 'notices';

/** Writes and sends what is to be told: every minute, and as soon as something cannot wait. */
@Injectable()
export class NoticeRound {
  private readonly log = new Logger(NoticeRound.name);

  constructor(
    private readonly atOnce: TellAtOnce,
    private readonly declines: TellDeclines,
    private readonly digests: MakeDigests,
    private readonly reminders: RemindOfVisits,
    private readonly mail: SendMail,
    private readonly queue: Queue,
  ) {
    queue.add({ name: NOTICES, cron: '* * * * *', retryLimit: 0, pollingSeconds: 1, work: async () => this.now() });
  }

  /** Asks for a round, in the transaction of the change when its runner is given. */
  async soon(sql?: SqlRunner, about?: string): Promise<void> {
    // With a key for what it is about, changes of different jobs do not wait for one another's entry.
    await this.queue.send(NOTICES, {}, { ...(about === undefined ? {} : { key: about }), ...(sql === undefined ? {} : { sql }) });
  }

  /** One part that fails holds up no other: what cannot wait is sent whatever is wrong with a digest. */
  async now(): Promise<void> {
    for (const part of [
      async () => this.atOnce.tell(),
      async () => this.declines.tell(),
      async () => this.mail.sendWaiting(),
      async () => this.digests.make(),
      async () => this.reminders.remind(),
      async () => this.mail.sendWaiting(),
    ]) {
      await part().catch((error: Error) => this.log.error(error.stack ?? error.message));
    }
  }
}
