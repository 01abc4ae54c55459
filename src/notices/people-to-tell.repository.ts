import { Injectable } from '@nestjs/common';
import { Database } from '../app/index.js';
import { Prisma } from '../generated/prisma/client.js';
import type { Day } from '../shared/day.js';
import type { NoticeChoiceDto } from './notices.dto.js';

export interface PersonToTell {
  readonly id: string;
  readonly name: string;
  readonly email: string;
  readonly role: 'manager' | 'storekeeper' | 'technician' | 'client';
  readonly clientId: string | null;
  readonly siteId: string | null;
  readonly mayEnterReadings: boolean;
  readonly digest: 'off' | 'daily' | 'weekly';
  readonly hour: number;
  readonly timeZone: string;
  readonly atOnce: boolean;
  /** Else this is what is usual for the role */
  readonly chosen: boolean;
  readonly lastDigestOn: Day | null;
}

/**
 * People with what they chose. Who has not chosen is told what is usual: staff every morning at seven, in the zone in which most sites of theirs lie;
 * managers at once; a client's people nothing, since nobody asked them.
 */
const PEOPLE = Prisma.sql`
  SELECT p.id, p.name, p.email, p.role, p.client_id AS "clientId", p.site_id AS "siteId", p.may_enter_readings AS "mayEnterReadings",
         coalesce(n.digest, CASE WHEN p.role = 'client' THEN 'off' ELSE 'daily' END) AS digest, coalesce(n.hour, 7) AS hour,
         coalesce(n.time_zone, usual.zone, 'UTC') AS "timeZone", coalesce(n.at_once, p.role = 'manager') AND p.role IN ('manager', 'technician') AS "atOnce",
         n.person_id IS NOT NULL AS chosen, to_char(d.day, 'YYYY-MM-DD') AS "lastDigestOn"
    FROM person p LEFT JOIN client c ON c.id = p.client_id LEFT JOIN notice_choice n ON n.person_id = p.id LEFT JOIN digest_day d ON d.person_id = p.id
    LEFT JOIN LATERAL (SELECT mode() WITHIN GROUP (ORDER BY site.time_zone) AS zone FROM site
                        WHERE site.ended_on IS NULL AND (p.client_id IS NULL OR site.client_id = p.client_id)) usual ON n.person_id IS NULL
   WHERE p.ended_at IS NULL`;

@Injectable()
export class PeopleToTellRepository {
  constructor(private readonly database: Database) {}

  /** Everybody who has proved, by setting a password with the link, that the address reaches them. */
  all(now: Date): Promise<PersonToTell[]> {
    return this.database.prisma.$queryRaw<PersonToTell[]>`
      ${PEOPLE} AND p.password_hash IS NOT NULL AND (c.ended_on IS NULL OR c.ended_on >= ${now}::date) ORDER BY p.name, p.id`;
  }

  async one(id: string): Promise<PersonToTell> {
    const [person] = await this.database.prisma.$queryRaw<PersonToTell[]>`${PEOPLE} AND p.id = ${id}::uuid`;
    if (person === undefined) throw new Error(`Person ${id} is signed in and is not there`);
    return person;
  }

  async choose(personId: string, { digest, hour, timeZone, atOnce }: NoticeChoiceDto): Promise<void> {
    const choice = { digest, hour, timeZone, atOnce };
    await this.database.prisma.noticeChoice.upsert({ where: { personId }, create: { personId, ...choice }, update: choice });
  }
}
