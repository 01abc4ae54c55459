import { Injectable } from '@nestjs/common';
import { type Caller, CallerSource, Clock } from '../app/index.js';
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
    if (bearer !== undefined) return this.sessions.callerOfGatewayKey(hashOfToken(bearer));
    if (sessionToken === undefined) return null;
    return this.sessions.callerOfSession(hashOfToken(sessionToken), this.clock.now());
  }
}
