import { Injectable } from '@nestjs/common';
import { Database, type Reader } from '../app/index.js';
import type { Mail as MailRow, Prisma } from '../generated/prisma/client.js';

export type { MailRow };
export type NewMail = Omit<Prisma.MailCreateManyInput, 'id' | 'nextTryAt' | 'tries' | 'lastError' | 'sentAt' | 'givenUpAt' | 'createdAt'>;

/** While a message is being sent nobody else takes it; when the process ends meanwhile, it is tried again after so long. */
const HELD_MIN = 10;
/** What was told stays for a season, to be looked up. */
const KEPT_DAYS = 90;

@Injectable()
export class MailRepository {
  constructor(private readonly database: Database) {}

  /** Writes the messages that are not written yet, and answers with how many there were. */
  async write(mails: readonly NewMail[], now: Date, reader: Reader = this.database.prisma): Promise<number> {
    const { count } = await reader.mail.createMany({ data: mails.map((mail) => ({ ...mail, createdAt: now, nextTryAt: now })), skipDuplicates: true });
    return count;
  }

  /** Takes the next message to send, what cannot wait first. Several workers never take the same. */
  async take(now: Date): Promise<MailRow | null> {
    const taken = await this.database.prisma.$queryRaw<{ id: string }[]>`
      UPDATE mail SET tries = tries + 1, next_try_at = ${now}::timestamptz + make_interval(mins => ${HELD_MIN}::int)
       WHERE id = (SELECT id FROM mail WHERE sent_at IS NULL AND given_up_at IS NULL AND next_try_at <= ${now}
                    ORDER BY kind = 'at once' DESC, next_try_at, id LIMIT 1 FOR UPDATE SKIP LOCKED) RETURNING id`;
    const id = taken[0]?.id;
    return id === undefined ? null : this.database.prisma.mail.findUnique({ where: { id } });
  }

  async sent(id: string, at: Date): Promise<void> {
    await this.database.prisma.mail.update({ where: { id }, data: { sentAt: at, lastError: '' } });
  }

  async failed(id: string, lastError: string, next: { nextTryAt: Date } | { givenUpAt: Date }): Promise<void> {
    await this.database.prisma.mail.update({ where: { id }, data: { lastError, ...next } });
  }

  /** Gives up what was not sent in time, and forgets what was written long ago. */
  async tidy(tooOldBefore: Date, now: Date): Promise<void> {
    await this.database.prisma.$executeRaw`
      UPDATE mail SET given_up_at = ${now}, last_error = concat_ws('; ', 'Not sent within two days', nullif(last_error, ''))
       WHERE sent_at IS NULL AND given_up_at IS NULL AND created_at < ${tooOldBefore}`;
    await this.database.prisma.$executeRaw`DELETE FROM mail WHERE created_at < ${now}::timestamptz - make_interval(days => ${KEPT_DAYS}::int)`;
  }

  /** One page of what was written, the latest first, and how many messages wait. */
  async list(state: 'waiting' | 'sent' | 'given up' | undefined, limit: number, before: string | undefined): Promise<{ rows: MailRow[]; waiting: number }> {
    const states = {
      waiting: { sentAt: null, givenUpAt: null },
      sent: { sentAt: { not: null } },
      'given up': { givenUpAt: { not: null }, sentAt: null },
    } satisfies Record<string, Prisma.MailWhereInput>;
    const { mail } = this.database.prisma;
    const where = { ...(state === undefined ? {} : states[state]), ...(before === undefined ? {} : { id: { lt: before } }) };
    const [rows, waiting] = await Promise.all([mail.findMany({ where, orderBy: { id: 'desc' }, take: limit + 1 }), mail.count({ where: states.waiting })]);
    return { rows, waiting };
  }
}
