import { Injectable } from '@nestjs/common';
import { Database } from '../app/index.js';

/** Any number: two first managers at once must wait for one another. */
const FIRST_MANAGER_LOCK = 5_104;

export interface InvitationRow {
  readonly expiresAt: Date;
  readonly usedAt: Date | null;
  readonly person: { readonly name: string; readonly endedAt: Date | null } | null;
}

@Injectable()
export class InvitationsRepository {
  constructor(private readonly database: Database) {}

  async isAnybodyThere(): Promise<boolean> {
    return (await this.database.prisma.person.findFirst({ select: { id: true } })) !== null;
  }

  /** A new link takes the place of an earlier one of the same person. */
  async keep(invitation: { tokenHash: string; personId: string | null; createdAt: Date; expiresAt: Date }): Promise<void> {
    await this.database.prisma.$transaction(async (tx) => {
      if (invitation.personId !== null) await tx.invitation.deleteMany({ where: { personId: invitation.personId, usedAt: null } });
      await tx.invitation.create({ data: invitation });
    });
  }

  /** Null: nobody was invited with this link, or it was replaced or withdrawn. */
  find(tokenHash: string): Promise<InvitationRow | null> {
    return this.database.prisma.invitation.findUnique({
      where: { tokenHash },
      select: { expiresAt: true, usedAt: true, person: { select: { name: true, endedAt: true } } },
    });
  }

  async withdraw(personId: string): Promise<void> {
    await this.database.prisma.invitation.deleteMany({ where: { personId, usedAt: null } });
  }

  /** Uses the link up, sets the password and ends the sessions that an earlier password opened. Null: the link is not valid. */
  async setPassword(tokenHash: string, { name, passwordHash, now }: { name: string | undefined; passwordHash: string; now: Date }): Promise<string | null> {
    return this.database.prisma.$transaction(async (tx) => {
      const [used] = await tx.invitation.updateManyAndReturn({
        where: { tokenHash, usedAt: null, expiresAt: { gt: now }, person: { endedAt: null } },
        data: { usedAt: now },
      });
      if (used?.personId == null) return null;
      await tx.person.update({ where: { id: used.personId }, data: { passwordHash, version: { increment: 1 }, ...(name === undefined ? {} : { name }) } });
      await tx.session.deleteMany({ where: { personId: used.personId } });
      return used.personId;
    });
  }

  /** Null: the link is not valid, or somebody is there already. */
  async makeFirstManager(tokenHash: string, person: { name: string; email: string; passwordHash: string }, now: Date): Promise<string | null> {
    return this.database.prisma.$transaction(async (tx) => {
      await tx.$executeRaw`SELECT pg_advisory_xact_lock(${FIRST_MANAGER_LOCK})`;
      if ((await tx.person.findFirst({ select: { id: true } })) !== null) return null;
      const { count } = await tx.invitation.updateMany({ where: { tokenHash, personId: null, usedAt: null, expiresAt: { gt: now } }, data: { usedAt: now } });
      if (count === 0) return null;
      return (await tx.person.create({ data: { ...person, role: 'manager' } })).id;
    });
  }
}
