import { Injectable } from '@nestjs/common';
import { type Caller, Clock, newId, readIdCursor, toPage, viewOf } from '../app/index.js';
import { noticeWords } from './core/words.js';
import { MailRepository, type MailRow } from './mail.repository.js';
import { Mailer } from './mailer.js';
import { NoticesPageView, type NoticesQuery, NoticeView } from './notices.dto.js';
import { PeopleToTellRepository } from './people-to-tell.repository.js';

/** What was told to whom, and what could not be sent and why. */
@Injectable()
export class MailList {
  constructor(
    private readonly mails: MailRepository,
    private readonly people: PeopleToTellRepository,
    private readonly mailer: Mailer,
    private readonly clock: Clock,
  ) {}

  async page({ state, limit, cursor }: NoticesQuery): Promise<NoticesPageView> {
    const { rows, waiting } = await this.mails.list(state, limit, readIdCursor(cursor));
    const people = await this.people.all(this.clock.now());
    const toldAtOnce = people.filter(({ atOnce }) => atOnce).map(({ name }) => name);
    return viewOf(NoticesPageView, { ...toPage(rows, limit, toView, ({ id }) => [id]), waiting, mailFrom: this.mailer.from, toldAtOnce });
  }

  /** Writes a message to the caller, to see whether the mail server takes it. */
  async trial(caller: Caller): Promise<void> {
    const { email } = await this.people.one(caller.id);
    await this.mails.write([{ ...noticeWords.trial, personId: caller.id, to: email, kind: 'trial', onceKey: `trial ${newId()}` }], this.clock.now());
  }
}

function toView({ id, to, kind, subject, createdAt, sentAt, givenUpAt, tries, nextTryAt, lastError }: MailRow): NoticeView {
  const state = sentAt !== null ? 'sent' : givenUpAt !== null ? 'given up' : 'waiting';
  return viewOf(NoticeView, { id, to, kind, subject, state, createdAt, sentAt, tries, nextTryAt: state === 'waiting' ? nextTryAt : null, lastError });
}
