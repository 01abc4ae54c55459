import { Injectable } from '@nestjs/common';
import { type Caller, Clock, Conflict, Database, newId, type Reader, runnerOf } from '../app/index.js';
import { ChangeOrders, OrderList } from '../store/index.js';
import { MailRepository } from './mail.repository.js';
import { Mailer } from './mailer.js';
import { NoticeRound } from './notice-round.js';

/** Writes to suppliers: the order, and, when it is late, the question when it comes. */
@Injectable()
export class OrderMail {
  constructor(
    private readonly database: Database,
    private readonly orders: OrderList,
    private readonly changing: ChangeOrders,
    private readonly mails: MailRepository,
    private readonly mailer: Mailer,
    private readonly round: NoticeRound,
    private readonly clock: Clock,
  ) {}

  /** In the transaction in which the order is marked, so that it is never marked without its message, nor the other way round. */
  async send(caller: Caller, orderId: string, version: number): Promise<void> {
    if (this.mailer.from === null) throw new Conflict('No mail server is set up. Send the order as PDF from your own program, and mark it as sent');
    await this.database.write(async (tx) => {
      const { to, subject, text } = await this.orders.letter(caller, orderId, tx);
      if (to === null) throw new Conflict('The supplier has no e-mail address. Enter one, or send the order as PDF and mark it as sent');
      const { state } = await this.orders.read(orderId, tx);
      if (state === 'sent') await this.changing.markChased(tx, caller, orderId, version);
      else await this.changing.markSent(tx, caller, orderId, version, 'e-mail');
      await this.write(tx, { to, subject, text });
    });
  }

  private async write(tx: Reader, message: { to: string; subject: string; text: string }): Promise<void> {
    await this.mails.write([{ ...message, kind: 'order', onceKey: `order ${newId()}` }], this.clock.now(), tx);
    await this.round.soon(runnerOf(tx));
  }
}
