import { Injectable } from '@nestjs/common';
import { Database, type Reader } from '../app/index.js';
import { AT_ONCE, type Severity } from '../shared/work.js';

export interface BreakdownToTell {
  readonly jobId: string;
  readonly no: number;
  readonly title: string;
  readonly request: string;
  readonly severity: Severity;
  readonly skidName: string;
  readonly siteName: string;
  readonly clientName: string;
  readonly timeZone: string;
  readonly reportedAt: Date;
  readonly noticedAt: Date;
  readonly takenBy: null;
}

@Injectable()
export class BreakdownsToTellRepository {
  constructor(private readonly database: Database) {}

  /** What cannot wait and has been taken by nobody. */
  open(): Promise<BreakdownToTell[]> {
    return this.database.prisma.$queryRaw<BreakdownToTell[]>`
      SELECT j.id AS "jobId", j.no, j.title, j.request, b.severity, s.name AS "skidName", site.name AS "siteName", client.name AS "clientName",
             site.time_zone AS "timeZone", j.created_at AS "reportedAt", b.noticed_at AS "noticedAt", b.taken_by AS "takenBy"
        FROM breakdown b JOIN job j ON j.id = b.job_id JOIN skid s ON s.id = j.skid_id JOIN site ON site.id = j.site_id JOIN client ON client.id = j.client_id
       WHERE b.severity = ANY(${[...AT_ONCE]}) AND b.taken_at IS NULL AND j.state NOT IN ('finished', 'dropped') ORDER BY j.no`;
  }

  async cannotWait(reader: Reader, jobId: string): Promise<boolean> {
    return (await reader.breakdown.count({ where: { jobId, severity: { in: [...AT_ONCE] }, takenAt: null } })) > 0;
  }

  write<T>(work: (tx: Reader) => Promise<T>): Promise<T> {
    return this.database.write(work);
  }

  /** A later telling takes the place of earlier ones that were not sent. */
  async replaceUnsent(tx: Reader, jobId: string, onceKeys: readonly string[], now: Date): Promise<void> {
    await tx.mail.updateMany({
      where: { jobId, kind: 'at once', sentAt: null, givenUpAt: null, onceKey: { notIn: [...onceKeys] } },
      data: { givenUpAt: now, lastError: 'A later message about the same took its place' },
    });
    await tx.breakdown.update({ where: { jobId }, data: { toldAt: now } });
  }

  /** What somebody has taken, or what is over, need not be told any more. */
  async dropUnsent(openJobIds: readonly string[], now: Date): Promise<void> {
    await this.database.prisma.mail.updateMany({
      where: { kind: 'at once', sentAt: null, givenUpAt: null, jobId: { notIn: [...openJobIds] } },
      data: { givenUpAt: now, lastError: 'Somebody took it, or it was over, before this could be sent' },
    });
  }
}
