import { Injectable } from '@nestjs/common';
import { Database } from '../app/index.js';
import type { AnswerFact } from './core/facts.js';

interface AnswerToTell extends AnswerFact {
  readonly proposalId: string;
  readonly visitId: string;
  readonly answeredAt: Date;
}

@Injectable()
export class AnswersToTellRepository {
  constructor(private readonly database: Database) {}

  /** What clients said since a moment of days that are still asked, the earliest day first: once the visit is shifted, promised or called off somebody has read it. */
  since(since: Date): Promise<AnswerToTell[]> {
    return this.database.prisma.$queryRaw<AnswerToTell[]>`
      SELECT a.id AS "proposalId", a.visit_id AS "visitId", v.no AS "visitNo", to_char(a.on_day, 'YYYY-MM-DD') AS "onDay", a.start_time AS "startTime",
             site.name AS "siteName", client.name AS "clientName", a.answer, a.reason, coalesce(a.wished_days, '{}')::text[] AS "wishedDays",
             a.answered_at AS "answeredAt", a.answered_by AS "answeredBy"
        FROM visit_answer a JOIN visit v ON v.id = a.visit_id JOIN site ON site.id = a.site_id JOIN client ON client.id = a.client_id
       WHERE a.closed_at IS NULL AND a.answer IS NOT NULL AND a.answered_at > ${since} ORDER BY a.on_day, a.start_time, v.no LIMIT 100`;
  }
}
