import { Injectable } from '@nestjs/common';
import { type Caller, Database } from '../app/index.js';
import { Prisma } from '../generated/prisma/client.js';
import type { RecordKind } from './attachments.dto.js';

const WITHOUT_CONTENT = {
  id: true,
  ofKind: true,
  ofId: true,
  place: true,
  name: true,
  mediaType: true,
  bytes: true,
  sha256: true,
  by: true,
  at: true,
} as const satisfies Prisma.AttachmentSelect;
export type AttachmentRow = Prisma.AttachmentGetPayload<{ select: typeof WITHOUT_CONTENT }>;

/** Whose a record is, and where. */
export interface Owner {
  readonly clientId: string | null;
  readonly siteId: string | null;
  readonly skidId: string | null;
}

const OWNER_SQL: Record<RecordKind, (id: string) => Prisma.Sql> = {
  job: (id) => Prisma.sql`SELECT client_id AS "clientId", site_id AS "siteId", skid_id AS "skidId" FROM job WHERE id = ${id}::uuid`,
  report: (id) =>
    Prisma.sql`SELECT r.client_id AS "clientId", j.site_id AS "siteId", j.skid_id AS "skidId" FROM job_report r JOIN job j ON j.id = r.job_id WHERE r.id = ${id}::uuid`,
  calibration: (id) => Prisma.sql`SELECT client_id AS "clientId", NULL::uuid AS "siteId", skid_id AS "skidId" FROM calibration WHERE id = ${id}::uuid`,
  'integrity test': (id) => Prisma.sql`SELECT client_id AS "clientId", NULL::uuid AS "siteId", skid_id AS "skidId" FROM integrity_test WHERE id = ${id}::uuid`,
  item: (id) => Prisma.sql`SELECT NULL::uuid AS "clientId", NULL::uuid AS "siteId", NULL::uuid AS "skidId" FROM item WHERE id = ${id}::uuid`,
};

@Injectable()
export class AttachmentsRepository {
  constructor(private readonly database: Database) {}

  /** Null: there is no such record that the caller may see. */
  async owner(caller: Caller, kind: RecordKind, id: string): Promise<Owner | null> {
    const [owner] = await this.database.readFor(caller, (reader) => reader.$queryRaw<Owner[]>(OWNER_SQL[kind](id)));
    return owner ?? null;
  }

  /** Whoever it belongs to: an id is used once. */
  withId(id: string): Promise<AttachmentRow | null> {
    return this.database.prisma.attachment.findUnique({ where: { id }, select: WITHOUT_CONTENT });
  }

  countOf(ofKind: RecordKind, ofId: string): Promise<number> {
    return this.database.prisma.attachment.count({ where: { ofKind, ofId } });
  }

  /** Leaves what is there under the id as it is. */
  async keep(attachment: Prisma.AttachmentCreateManyInput): Promise<void> {
    await this.database.prisma.attachment.createMany({ data: attachment, skipDuplicates: true });
  }

  list(caller: Caller, ofKind: RecordKind, ofId: string): Promise<AttachmentRow[]> {
    return this.database.readFor(caller, (reader) =>
      reader.attachment.findMany({ where: { ofKind, ofId }, select: WITHOUT_CONTENT, orderBy: [{ at: 'asc' }, { id: 'asc' }] }),
    );
  }

  find(caller: Caller, id: string): Promise<AttachmentRow | null> {
    return this.database.readFor(caller, (reader) => reader.attachment.findUnique({ where: { id }, select: WITHOUT_CONTENT }));
  }

  async content(caller: Caller, id: string): Promise<Uint8Array | null> {
    const row = await this.database.readFor(caller, (reader) => reader.attachment.findUnique({ where: { id }, select: { content: true } }));
    return row?.content ?? null;
  }
}
