import { Injectable } from '@nestjs/common';
import { Clock, ServiceSettings } from '../app/index.js';
import { dayPlus } from '../shared/day.js';
import { digestDayOf } from './core/digest-day.js';
import { reminderLetter } from './core/reminder-letter.js';
import { DigestFactsRepository } from './digest-facts.repository.js';
import { MailRepository, type NewMail } from './mail.repository.js';
import { PeopleToTellRepository, type PersonToTell } from './people-to-tell.repository.js';

/** Long enough to clear the way in, short enough to be remembered: common practice. */
const DAYS_BEFORE = 3;

/**
 * Reminds a client's people who chose a weekly digest of promised visits, three days before, at the hour of their digest: a daily digest tells of them each day, and who chose
 * none is told nothing. Once for each day and time that was promised; a visit that is shifted is told again.
 */
@Injectable()
export class RemindOfVisits {
  constructor(
    private readonly people: PeopleToTellRepository,
    private readonly facts: DigestFactsRepository,
    private readonly mails: MailRepository,
    private readonly settings: ServiceSettings,
    private readonly clock: Clock,
  ) {}

  async remind(): Promise<void> {
    const now = this.clock.now();
    for (const person of await this.people.all(now)) {
      if (person.role !== 'client' || person.digest !== 'weekly') continue;
      const day = digestDayOf({ ...person, digest: 'daily' }, person.lastDigestOn, now);
      if (day !== null) await this.remindOne(person, day, now);
    }
  }

  private async remindOne(person: PersonToTell, day: string, now: Date): Promise<void> {
    const { id, name, role, clientId, siteId, mayEnterReadings, email } = person;
    const caller = { id, name, role, clientId, siteId, mayEnterReadings };
    const visits = await this.facts.visits(caller, { from: dayPlus(day, 1), to: dayPlus(day, DAYS_BEFORE), promisedOnly: true });
    const address = this.settings.publicUrl ?? null;
    const mails = visits.map((visit): NewMail => {
      const onceKey = `reminder ${id} ${visit.no} ${visit.onDay} ${visit.startTime}`;
      return { ...reminderLetter(visit, day, address), personId: id, to: email, kind: 'reminder', onceKey };
    });
    await this.mails.write(mails, now);
  }
}
