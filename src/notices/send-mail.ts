import { Injectable } from '@nestjs/common';
import { Clock } from '../app/index.js';
import { nextTry, tooOldBefore } from './core/retry.js';
import { MailRepository } from './mail.repository.js';
import { Mailer } from './mailer.js';

/** The next round takes the rest: one round must end before the queue takes it for lost. */
const MOST_IN_A_ROUND = 200;

/** Sends the messages whose time has come. One that cannot be sent is kept and tried again; nothing waits for it. */
@Injectable()
export class SendMail {
  constructor(
    private readonly repository: MailRepository,
    private readonly mailer: Mailer,
    private readonly clock: Clock,
  ) {}

  async sendWaiting(): Promise<void> {
    const now = this.clock.now();
    await this.repository.tidy(tooOldBefore(now), now);
    if (this.mailer.from === null) return;
    for (let n = 0; n < MOST_IN_A_ROUND; n++) {
      const mail = await this.repository.take(this.clock.now());
      if (mail === null) return;
      const result = await this.mailer.send(mail);
      const at = this.clock.now();
      if (result.kind === 'sent') {
        await this.repository.sent(mail.id, at);
        continue;
      }
      const next = result.fault === 'address' ? { givenUpAt: at } : { nextTryAt: nextTry(mail.tries, at) };
      await this.repository.failed(mail.id, result.error, next);
      if (result.fault === 'server') return; // the others would fare no better
    }
  }
}
