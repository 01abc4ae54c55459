import { Injectable } from '@nestjs/common';
import { type Caller, Database, Gather, PLANNED_ONCE } from '../app/index.js';

export interface SessionRow {
  readonly id: string;
  readonly name: string;
  readonly email: string;
  readonly role: 'manager' | 'storekeeper' | 'technician' | 'client';
  readonly clientId: string | null;
  readonly clientName: string | null;
  readonly siteId: string | null;
  readonly mayEnterReadings: boolean;
  readonly demo: boolean;
}

interface GatewayKeyRow {
  readonly id: string;
  readonly name: string;
  readonly siteId: string;
  readonly createdBy: string;
  readonly endedAt: Date | null;
  readonly endedBy: string | null;
  readonly site: { readonly name: string; readonly endedOn: Date | null };
}

interface Held {
  readonly tokenHash: string;
  readonly now: Date;
}

const CALLERS_OF_SESSIONS = `${PLANNED_ONCE}
  SELECT s.token_hash AS "tokenHash", p.id, p.name, p.role, p.client_id AS "clientId", p.site_id AS "siteId", p.may_enter_readings AS "mayEnterReadings"
    FROM session s JOIN person p ON p.id = s.person_id LEFT JOIN client c ON c.id = p.client_id
   WHERE s.token_hash = ANY($1) AND s.expires_at > $2::timestamptz AND p.ended_at IS NULL AND (c.ended_on IS NULL OR c.ended_on >= $2::date)`;

@Injectable()
export class SessionsRepository {
  /** Every request asks: many at once are answered by one query. */
  private readonly callers: Gather<Held, Caller | null>;

  constructor(private readonly database: Database) {
    this.callers = new Gather(async (held) => {
      const now = new Date(Math.max(...held.map((each) => each.now.getTime())));
      const rows = await database.prisma.$queryRawUnsafe<(Caller & { tokenHash: string })[]>(
        CALLERS_OF_SESSIONS,
        [...new Set(held.map(({ tokenHash }) => tokenHash))],
        now,
      );
      const byHash = new Map(rows.map(({ tokenHash, ...caller }) => [tokenHash, caller]));
      return held.map(({ tokenHash }) => ({ status: 'fulfilled', value: byHash.get(tokenHash) ?? null }));
    });
  }

  /** Who holds the session. Nobody, when it is over or when the person or their client has ended. */
  callerOfSession(tokenHash: string, now: Date): Promise<Caller | null> {
    return this.callers.ask({ tokenHash, now });
  }

  /** The key whatever became of it. A use is noted once a minute, so that reading writes little. */
  async gatewayKey(keyHash: string, now: Date): Promise<GatewayKeyRow | null> {
    const { gatewayKey } = this.database.prisma;
    const key = await gatewayKey.findUnique({
      where: { keyHash },
      select: {
        id: true,
        name: true,
        siteId: true,
        createdBy: true,
        endedAt: true,
        endedBy: true,
        lastUsedAt: true,
        site: { select: { name: true, endedOn: true } },
      },
    });
    if (key !== null && key.endedAt === null && now.getTime() - (key.lastUsedAt?.getTime() ?? 0) > 60_000) {
      await gatewayKey.update({ where: { keyHash }, data: { lastUsedAt: now } });
    }
    return key;
  }

  async passwordOf(email: string): Promise<{ id: string; passwordHash: string | null } | null> {
    return this.database.prisma.person.findFirst({ where: { email, endedAt: null }, select: { id: true, passwordHash: true } });
  }

  /** Keeps the new session and forgets those of everybody that are over. */
  async start(session: { tokenHash: string; personId: string; createdAt: Date; expiresAt: Date }): Promise<void> {
    const { session: sessions } = this.database.prisma;
    await this.database.prisma.$transaction([sessions.deleteMany({ where: { expiresAt: { lte: session.createdAt } } }), sessions.create({ data: session })]);
  }

  async end(tokenHash: string): Promise<void> {
    await this.database.prisma.session.deleteMany({ where: { tokenHash } });
  }

  async person(id: string): Promise<SessionRow> {
    const [row] = await this.database.prisma.$queryRaw<SessionRow[]>`
      SELECT p.id, p.name, p.email, p.role, p.client_id AS "clientId", c.name AS "clientName", p.site_id AS "siteId", p.may_enter_readings AS "mayEnterReadings",
             EXISTS (SELECT 1 FROM person WHERE demo) AS demo
        FROM person p LEFT JOIN client c ON c.id = p.client_id WHERE p.id = ${id}::uuid`;
    if (row === undefined) throw new Error(`Person ${id} holds a session and does not exist`);
    return row;
  }
}
