import { Injectable } from '@nestjs/common';
import { Clock, ServiceSettings } from '../app/index.js';
import { BreakdownsToTellRepository, type BreakdownToTell } from './breakdowns-to-tell.repository.js';
import { atOnceLetter } from './core/at-once-letter.js';
import { tellingNo } from './core/told-again.js';
import { MailRepository, type NewMail } from './mail.repository.js';
import { PeopleToTellRepository, type PersonToTell } from './people-to-tell.repository.js';

/** Writes to those who chose it, as soon as it is reported, of what cannot wait; again each half hour until somebody takes it. */
@Injectable()
export class TellAtOnce {
  constructor(
    private readonly breakdowns: BreakdownsToTellRepository,
    private readonly people: PeopleToTellRepository,
    private readonly mails: MailRepository,
    private readonly settings: ServiceSettings,
    private readonly clock: Clock,
  ) {}

  async tell(): Promise<void> {
    const now = this.clock.now();
    const open = await this.breakdowns.open();
    await this.breakdowns.dropUnsent(
      open.map(({ jobId }) => jobId),
      now,
    );
    if (open.length === 0) return;
    const people = (await this.people.all(now)).filter(({ atOnce }) => atOnce);
    for (const breakdown of open) await this.tellOf(breakdown, people, now);
  }

  private async tellOf(breakdown: BreakdownToTell, people: readonly PersonToTell[], now: Date): Promise<void> {
    const { jobId, reportedAt } = breakdown;
    const telling = tellingNo(reportedAt, now);
    const { publicUrl } = this.settings;
    const address = publicUrl === undefined ? null : `${publicUrl}/jobs/${jobId}`;
    const mails = people.map(
      (person): NewMail => ({
        ...atOnceLetter({ ...breakdown, telling }, address),
        personId: person.id,
        to: person.email,
        kind: 'at once',
        jobId,
        onceKey: `at once ${jobId} ${person.id} ${telling}`,
      }),
    );
    await this.breakdowns.write(async (tx) => {
      const written = await this.mails.write(mails, now, tx);
      const keys = mails.map(({ onceKey }) => onceKey);
      if (written > 0) await this.breakdowns.replaceUnsent(tx, jobId, keys, now);
    });
  }
}
