import { Injectable } from '@nestjs/common';
import { addDays } from 'date-fns/addDays';
import { Clock, viewOf } from '../app/index.js';
import { RecentTries } from './core/recent-tries.js';
import { passwordFits } from './passwords.js';
import { TooManyTries, WrongEmailOrPassword } from './people.errors.js';
import { SessionView, type SignInDto } from './session.dto.js';
import { SessionsRepository } from './sessions.repository.js';
import { hashOfToken, newToken } from './tokens.js';

/** Counted from signing in, however busy the session is: then reading the session writes nothing. */
const SESSION_DAYS = 14;
const TRIES = 10;
const TRIES_WITHIN_MINUTES = 5;

export interface StartedSession {
  readonly token: string;
  readonly expiresAt: Date;
  readonly person: SessionView;
}

@Injectable()
export class SignIn {
  private readonly failed = new RecentTries(TRIES, TRIES_WITHIN_MINUTES * 60_000);

  constructor(
    private readonly sessions: SessionsRepository,
    private readonly clock: Clock,
  ) {}

  /** Ten tries that fail, from one address or for one account, make the next ones wait. */
  async withPassword({ email, password }: SignInDto, address: string): Promise<StartedSession> {
    const [fromAddress, forAccount] = [`address ${address}`, `account ${email}`];
    const now = this.clock.now().getTime();
    if (!this.failed.take(fromAddress, now) || !this.failed.take(forAccount, now)) {
      throw new TooManyTries(`Too many tries to sign in failed. Wait ${TRIES_WITHIN_MINUTES} minutes, then try again`);
    }
    const person = await this.sessions.passwordOf(email);
    const fits = await passwordFits(person?.passwordHash ?? null, password);
    if (person === null || !fits) throw new WrongEmailOrPassword('The e-mail address or the password is wrong');
    this.failed.giveBack(fromAddress);
    this.failed.forget(forAccount);
    return this.start(person.id);
  }

  /** For somebody who has just proved who they are. */
  async start(personId: string): Promise<StartedSession> {
    const { token, tokenHash } = newToken();
    const createdAt = this.clock.now();
    const expiresAt = addDays(createdAt, SESSION_DAYS);
    await this.sessions.start({ tokenHash, personId, createdAt, expiresAt });
    return { token, expiresAt, person: await this.person(personId) };
  }

  async end(token: string | undefined): Promise<void> {
    if (token !== undefined) await this.sessions.end(hashOfToken(token));
  }

  async person(id: string): Promise<SessionView> {
    const { name, email, role, clientId, clientName, siteId, mayEnterReadings, demo } = await this.sessions.person(id);
    return viewOf(SessionView, { id, name, email, role, clientId, clientName, siteId, mayEnterReadings, demo });
  }
}
