import { Injectable } from '@nestjs/common';
import { containing, Database, pageBy, takeEdited } from '../app/index.js';
import type { Prisma } from '../generated/prisma/client.js';
import type { PeopleQuery, PersonRole } from './people.dto.js';
import { LastManager } from './people.errors.js';

const WITH_PLACE = {
  client: { select: { name: true } },
  site: { select: { name: true, clientId: true } },
  invitations: { where: { usedAt: null }, select: { expiresAt: true }, orderBy: { expiresAt: 'desc' }, take: 1 },
} as const satisfies Prisma.PersonInclude;
export type PersonRow = Prisma.PersonGetPayload<{ include: typeof WITH_PLACE }>;

type StaffRole = Exclude<PersonRole, 'client'>;

export interface PersonColumns {
  readonly name: string;
  readonly email: string;
  readonly role: PersonRole;
  readonly clientId: string | null;
  readonly siteId: string | null;
  readonly mayEnterReadings: boolean;
}

/** Changes that may take the last manager away wait for one another. */
const MANAGERS_LOCK = 5_105;

@Injectable()
export class PeopleRepository {
  constructor(private readonly database: Database) {}

  list(query: PeopleQuery): Promise<PersonRow[]> {
    const { behind, ...order } = pageBy('name', query);
    const { role, clientId, ended } = query;
    const find = containing(query.find);
    return this.database.prisma.person.findMany({
      where: {
        AND: [
          behind,
          { endedAt: ended === 'true' ? { not: null } : null },
          role === undefined ? {} : { role },
          clientId === undefined ? {} : { clientId },
          find === undefined ? {} : { OR: [{ name: find }, { email: find }] },
        ],
      },
      ...order,
      include: WITH_PLACE,
    });
  }

  /** The department's people, by name. */
  async staff(): Promise<{ id: string; name: string; role: StaffRole }[]> {
    const rows = await this.database.prisma.person.findMany({
      where: { endedAt: null, role: { in: ['manager', 'storekeeper', 'technician'] satisfies StaffRole[] } },
      select: { id: true, name: true, role: true },
      orderBy: [{ name: 'asc' }, { id: 'asc' }],
    });
    return rows.map((row) => ({ ...row, role: row.role as StaffRole }));
  }

  find(id: string): Promise<PersonRow | null> {
    return this.database.prisma.person.findUnique({ where: { id }, include: WITH_PLACE });
  }

  async isSiteOf(siteId: string, clientId: string): Promise<boolean> {
    return (await this.database.prisma.site.count({ where: { id: siteId, clientId } })) === 1;
  }

  create(person: PersonColumns): Promise<PersonRow> {
    return this.database.prisma.person.create({ data: person, include: WITH_PLACE });
  }

  edit(id: string, version: number, person: PersonColumns): Promise<PersonRow> {
    return this.keepingAManager(async (tx) => {
      const data = { ...person, version: { increment: 1 } };
      takeEdited(await tx.person.updateManyAndReturn({ where: { id, version, endedAt: null }, data, select: { id: true } }), 'person');
      return tx.person.findUniqueOrThrow({ where: { id }, include: WITH_PLACE });
    });
  }

  /** Ends the person with their sessions and invitations. */
  end(id: string, version: number, at: Date): Promise<void> {
    return this.keepingAManager(async (tx) => {
      const data = { endedAt: at, version: { increment: 1 } };
      takeEdited(await tx.person.updateManyAndReturn({ where: { id, version, endedAt: null }, data }), 'person');
      await tx.session.deleteMany({ where: { personId: id } });
      await tx.invitation.deleteMany({ where: { personId: id } });
    });
  }

  private keepingAManager<T>(work: (tx: Prisma.TransactionClient) => Promise<T>): Promise<T> {
    return this.database.prisma.$transaction(async (tx) => {
      await tx.$executeRaw`SELECT pg_advisory_xact_lock(${MANAGERS_LOCK})`;
      const done = await work(tx);
      const managers = await tx.person.count({ where: { role: 'manager', endedAt: null, passwordHash: { not: null } } });
      if (managers === 0) throw new LastManager('This is the last manager who can sign in. Make somebody else a manager first');
      return done;
    });
  }
}
