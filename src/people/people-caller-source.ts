import { Injectable } from '@nestjs/common';
import { type Caller, CallerSource, Clock } from '../app/index.js';
import { dayInWords } from '../shared/day.js';
import { KeyNotKnown, KeyWithdrawn } from './people.errors.js';
import { SessionsRepository } from './sessions.repository.js';
import { hashOfToken } from './tokens.js';

/** Knows callers by the key of a gateway or by the cookie of a session. A request that shows a key is judged by the key alone. */
@Injectable()
export class PeopleCallerSource extends CallerSource {
  constructor(
    private readonly sessions: SessionsRepository,
    private readonly clock: Clock,
  ) {
    super();
  }

  async find({ sessionToken, bearer }: { sessionToken: string | undefined; bearer: string | undefined }): Promise<Caller | null> {
    if (bearer !== undefined) return this.gateway(bearer);
    if (sessionToken === undefined) return null;
    return this.sessions.callerOfSession(hashOfToken(sessionToken), this.clock.now());
  }

  /** Whoever looks after the machine learns why its key opens nothing, and what to do. */
  private async gateway(bearer: string): Promise<Caller> {
    const key = await this.sessions.gatewayKey(hashOfToken(bearer), this.clock.now());
    if (key === null) throw new KeyNotKnown('This key is not known. Check that the whole key was copied into the gateway, or ask a manager for a new one');
    const { id, name, siteId, site, createdBy, endedAt, endedBy } = key;
    if (endedAt !== null) {
      const by = endedBy === null ? '' : ` by ${endedBy}`;
      const day = dayInWords(endedAt.toISOString().slice(0, 10), '');
      throw new KeyWithdrawn(`The key "${name}" of ${site.name} was withdrawn on ${day}${by}. Ask ${endedBy ?? createdBy} or another manager for a new key`);
    }
    if (site.endedOn !== null) throw new KeyWithdrawn(`The site ${site.name} has ended, and the key "${name}" with it. Ask ${createdBy} or another manager`);
    return { id, name, role: 'gateway', clientId: null, siteId, mayEnterReadings: true };
  }
}
