import { Injectable } from '@nestjs/common';
import { subDays } from 'date-fns/subDays';
import { Clock, ServiceSettings } from '../app/index.js';
import { AnswersToTellRepository } from './answers-to-tell.repository.js';
import { declineLetter } from './core/answer-letter.js';
import { MailRepository, type NewMail } from './mail.repository.js';
import { PeopleToTellRepository } from './people-to-tell.repository.js';

/** As long as messages are tried. */
const TOLD_DAYS = 2;

/** Writes to managers who chose to be told at once, when a client declines a day; the same answer is told once, and a confirmed day waits for the digest. */
@Injectable()
export class TellDeclines {
  constructor(
    private readonly answers: AnswersToTellRepository,
    private readonly people: PeopleToTellRepository,
    private readonly mails: MailRepository,
    private readonly settings: ServiceSettings,
    private readonly clock: Clock,
  ) {}

  async tell(): Promise<void> {
    const now = this.clock.now();
    const declined = (await this.answers.since(subDays(now, TOLD_DAYS))).filter(({ answer }) => answer === 'declined');
    if (declined.length === 0) return;
    const managers = (await this.people.all(now)).filter(({ role, atOnce }) => role === 'manager' && atOnce);
    const { publicUrl } = this.settings;
    const mails = declined.flatMap((answer) => {
      const { proposalId, visitId, answeredAt } = answer;
      const told = declineLetter(answer, now.toISOString().slice(0, 10), publicUrl === undefined ? null : `${publicUrl}/visits/${visitId}`);
      return managers.map(({ id, email }): NewMail => {
        return { ...told, personId: id, to: email, kind: 'decline', onceKey: `decline ${proposalId} ${answeredAt.getTime()} ${id}` };
      });
    });
    await this.mails.write(mails, now);
  }
}
