import { Injectable } from '@nestjs/common';
import { subDays } from 'date-fns/subDays';
import { type Caller, Clock, ServiceSettings } from '../app/index.js';
import { CoverList } from '../chemicals/index.js';
import { type Day, dayPlus } from '../shared/day.js';
import { AnswersToTellRepository } from './answers-to-tell.repository.js';
import { clientDigest, type Digest, managerDigest, storeDigest, technicianDigest } from './core/digest.js';
import { digestDayOf } from './core/digest-day.js';
import type { SupplyFact } from './core/facts.js';
import { letter } from './core/letter.js';
import { noticeWords as words } from './core/words.js';
import { DigestDaysRepository } from './digest-days.repository.js';
import { DigestFactsRepository } from './digest-facts.repository.js';
import { MailRepository } from './mail.repository.js';
import { PeopleToTellRepository, type PersonToTell } from './people-to-tell.repository.js';

const DUES_SHOWN = 10;
const VISITS_AHEAD_DAYS = 7;
/** As long as parts take that are on a shelf somewhere. Common practice. */
const STORE_AHEAD_DAYS = 14;
const CLIENT_AHEAD_DAYS = 28;

/** Writes the digests whose hour has come: to each person what concerns them, once a day at most, and nothing when there is nothing to tell. */
@Injectable()
export class MakeDigests {
  constructor(
    private readonly people: PeopleToTellRepository,
    private readonly facts: DigestFactsRepository,
    private readonly answers: AnswersToTellRepository,
    private readonly covers: CoverList,
    private readonly days: DigestDaysRepository,
    private readonly mails: MailRepository,
    private readonly settings: ServiceSettings,
    private readonly clock: Clock,
  ) {}

  async make(): Promise<void> {
    const now = this.clock.now();
    for (const person of await this.people.all(now)) {
      const day = digestDayOf(person, person.lastDigestOn, now);
      if (day !== null) await this.makeFor(person, day, now);
    }
  }

  private async makeFor(person: PersonToTell, day: Day, now: Date): Promise<void> {
    const digest = await this.digestFor(person, day, now);
    await this.days.once(person.id, day, async (tx) => {
      if (digest === null) return;
      const { publicUrl } = this.settings;
      const open = publicUrl === undefined ? [] : [words.open(publicUrl)];
      const why = words.why(person.digest === 'weekly' ? 'weekly' : 'daily', person.hour, person.timeZone);
      const mail = letter(digest.subject, words.for(person.name, day), digest.sections, [...open, why]);
      await this.mails.write([{ ...mail, personId: person.id, to: person.email, kind: 'digest', onceKey: `digest ${person.id} ${day}` }], now, tx);
    });
  }

  private async digestFor(person: PersonToTell, day: Day, now: Date): Promise<Digest | null> {
    const caller = callerOf(person);
    const visits = { from: day, to: dayPlus(day, VISITS_AHEAD_DAYS - 1) };
    switch (person.role) {
      case 'manager': {
        const [dues, breakdowns, reports] = [await this.facts.dues(now, DUES_SHOWN), await this.facts.breakdowns(), await this.facts.reports()];
        const answers = await this.answers.since(subDays(now, daysOf(person)));
        return managerDigest({ ...dues, breakdowns, reports, answers, visits: await this.facts.visits(caller, visits) }, day);
      }
      case 'storekeeper': {
        const until = dayPlus(day, STORE_AHEAD_DAYS);
        return storeDigest(await this.facts.shortItems(day, until), await this.facts.tanks(until), day);
      }
      case 'technician':
        return technicianDigest(await this.facts.visits(caller, { ...visits, personId: person.id }), person.name, day);
      case 'client': {
        const digest = person.digest === 'weekly' ? 'weekly' : 'daily';
        const promised = await this.facts.visits(caller, { from: day, to: dayPlus(day, CLIENT_AHEAD_DAYS), promisedOnly: true });
        const finished = await this.facts.finished(caller, subDays(now, daysOf(person)));
        const skids = await this.facts.skids(caller, now);
        return clientDigest({ visits: promised, finished, skids, supply: await this.supplyOf(caller) }, digest, day);
      }
    }
  }

  /** What the caller has to order for tanks that they fill: how much, and by what day. */
  private async supplyOf(caller: Caller): Promise<SupplyFact[]> {
    const tanks = await this.covers.all(caller, { suppliedBy: 'client' });
    return tanks.flatMap(({ tankName, skidName, siteName, reminder }) => (reminder === null ? [] : [{ tankName, skidName, siteName, asked: reminder.words }]));
  }
}

/** Since the one before. */
const daysOf = ({ digest }: PersonToTell): number => (digest === 'weekly' ? 7 : 1);

/** A digest shows what the person would see on the pages: a client's is read as that client. */
function callerOf({ id, name, role, clientId, siteId, mayEnterReadings }: PersonToTell): Caller {
  return { id, name, role, clientId, siteId, mayEnterReadings };
}
