import { Injectable } from '@nestjs/common';
import { type Caller, Database } from '../app/index.js';
import type { Day } from '../shared/day.js';
import type { VisitState } from '../shared/work.js';

export interface CalendarAddressRow {
  readonly id: string;
  readonly name: string;
  readonly createdAt: Date;
  readonly lastReadAt: Date | null;
}

const SHOWN = { id: true, name: true, createdAt: true, lastReadAt: true } as const;

export interface CalendarVisitRow {
  readonly id: string;
  readonly no: number;
  readonly onDay: Day;
  readonly startTime: string;
  readonly minutes: number;
  readonly breakMinutes: number;
  readonly state: VisitState;
  readonly version: number;
  readonly siteName: string;
  readonly clientName: string;
  readonly timeZone: string;
  readonly latitude: number | null;
  readonly longitude: number | null;
  readonly accessHours: string;
  readonly noteToClient: string;
  readonly people: readonly string[];
  readonly jobs: readonly { readonly no: number; readonly title: string; readonly skidName: string }[];
}

@Injectable()
export class CalendarRepository {
  constructor(private readonly database: Database) {}

  list(personId: string): Promise<CalendarAddressRow[]> {
    return this.database.prisma.calendarAddress.findMany({ where: { personId, endedAt: null }, select: SHOWN, orderBy: { createdAt: 'asc' } });
  }

  count(personId: string): Promise<number> {
    return this.database.prisma.calendarAddress.count({ where: { personId, endedAt: null } });
  }

  create(address: { personId: string; name: string; tokenHash: string; createdAt: Date }): Promise<CalendarAddressRow> {
    return this.database.prisma.calendarAddress.create({ data: address, select: SHOWN });
  }

  /** False: the person has no such address. */
  async end(personId: string, id: string, at: Date): Promise<boolean> {
    await this.database.prisma.calendarAddress.updateMany({ where: { id, personId, endedAt: null }, data: { endedAt: at } });
    return (await this.database.prisma.calendarAddress.count({ where: { id, personId } })) === 1;
  }

  /** Whose calendar it is, noting that it was read; null when the address was withdrawn, or when the person or their client has ended. */
  async reader(tokenHash: string, now: Date): Promise<Caller | null> {
    const [caller] = await this.database.prisma.$queryRaw<Caller[]>`
      UPDATE calendar_address a SET last_read_at = ${now} FROM person p LEFT JOIN client c ON c.id = p.client_id
       WHERE a.token_hash = ${tokenHash} AND a.ended_at IS NULL AND p.id = a.person_id AND p.ended_at IS NULL AND (c.ended_on IS NULL OR c.ended_on >= ${now}::date)
      RETURNING p.id, p.name, p.role, p.client_id AS "clientId", p.site_id AS "siteId", p.may_enter_readings AS "mayEnterReadings"`;
    return caller ?? null;
  }

  /** The visits of a calendar, those called off included: one query. A technician's are their own, a client's those that policies let them see. */
  visits(caller: Caller, from: Day, to: Day): Promise<CalendarVisitRow[]> {
    const personId = caller.role === 'technician' ? caller.id : null;
    return this.database.readFor(
      caller,
      (reader) => reader.$queryRaw<CalendarVisitRow[]>`
        SELECT v.id, v.no, to_char(v.on_day, 'YYYY-MM-DD') AS "onDay", v.start_time AS "startTime", v.minutes, v.break_minutes AS "breakMinutes", v.state, v.version, v.note_to_client AS "noteToClient",
               site.name AS "siteName", client.name AS "clientName", site.time_zone AS "timeZone", site.latitude, site.longitude, site.access_hours AS "accessHours",
               (SELECT coalesce(jsonb_agg(p.name ORDER BY p.name), '[]') FROM visit_person p WHERE p.visit_id = v.id) AS people,
               (SELECT coalesce(jsonb_agg(jsonb_build_object('no', j.no, 'title', j.title, 'skidName', s.name) ORDER BY s.name, j.no), '[]')
                  FROM job j JOIN skid s ON s.id = j.skid_id WHERE j.visit_id = v.id) AS jobs
          FROM visit v JOIN site ON site.id = v.site_id JOIN client ON client.id = v.client_id
         WHERE v.on_day BETWEEN ${from}::date AND ${to}::date
           AND (${personId}::uuid IS NULL OR EXISTS (SELECT 1 FROM visit_person p WHERE p.visit_id = v.id AND p.person_id = ${personId}::uuid))
         ORDER BY v.on_day, v.start_time, v.no`,
    );
  }
}
