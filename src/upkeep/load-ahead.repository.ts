import { Injectable } from '@nestjs/common';
import { Database } from '../app/index.js';

export interface LoadRow {
  /** A Monday */
  readonly week: string;
  readonly kind: string;
  readonly hours: number;
  readonly tasks: number;
}

export interface LoadScope {
  readonly skidId: string | undefined;
  readonly clientId: string | undefined;
}

export interface TaskOfWeekRow {
  readonly skidId: string;
  readonly skidName: string;
  readonly siteName: string;
  readonly clientName: string;
  readonly kind: string;
  readonly detail: { task: string; times: number; hours: number }[];
}

/** The work of the coming year, as it was projected with the dues. */
@Injectable()
export class LoadAheadRepository {
  constructor(private readonly database: Database) {}

  /** One query, whatever the size of the fleet. */
  byWeek({ skidId, clientId }: LoadScope, from: string, to: string): Promise<LoadRow[]> {
    return this.database.prisma.$queryRaw<LoadRow[]>`
      SELECT to_char(week, 'YYYY-MM-DD') AS week, kind, sum(hours) AS hours, sum(tasks)::int AS tasks
        FROM work_ahead
       WHERE week >= ${from}::date AND week < ${to}::date AND (${clientId ?? null}::uuid IS NULL OR client_id = ${clientId ?? null}::uuid)
         AND (${skidId ?? null}::uuid IS NULL OR skid_no = (SELECT no FROM skid WHERE id = ${skidId ?? null}::uuid))
       GROUP BY work_ahead.week, kind ORDER BY work_ahead.week, kind`;
  }

  /** What a week is made of, skid by skid. */
  ofWeek({ skidId, clientId }: LoadScope, week: string): Promise<TaskOfWeekRow[]> {
    return this.database.prisma.$queryRaw<TaskOfWeekRow[]>`
      SELECT s.id AS "skidId", s.name AS "skidName", site.name AS "siteName", client.name AS "clientName", w.kind, w.detail
        FROM work_ahead w JOIN skid s ON s.no = w.skid_no JOIN site ON site.id = s.site_id JOIN client ON client.id = s.client_id
       WHERE w.week = ${week}::date AND (${clientId ?? null}::uuid IS NULL OR w.client_id = ${clientId ?? null}::uuid) AND (${skidId ?? null}::uuid IS NULL OR s.id = ${skidId ?? null}::uuid)
       ORDER BY w.hours DESC, s.name, w.kind LIMIT 1000`;
  }
}
