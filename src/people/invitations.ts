import { Injectable } from '@nestjs/common';
import { addDays } from 'date-fns/addDays';
import { Clock } from '../app/index.js';
import { InvitationsRepository } from './invitations.repository.js';
import { hashPassword } from './passwords.js';
import { LinkNotValid } from './people.errors.js';
import { hashOfToken, newToken } from './tokens.js';

const LINK_DAYS = 7;

/** Links that are shown once and with which a person sets a password. */
@Injectable()
export class Invitations {
  constructor(
    private readonly repository: InvitationsRepository,
    private readonly clock: Clock,
  ) {}

  async invite(personId: string): Promise<{ path: string; expiresAt: Date }> {
    const { token, expiresAt } = await this.makeLink(personId);
    return { path: `/invitation/${token}`, expiresAt };
  }

  /** Answers with the id of the person who may now sign in. */
  async accept(token: string, { name, password }: { name?: string; password: string }): Promise<string> {
    const passwordHash = await hashPassword(password);
    const personId = await this.repository.setPassword(hashOfToken(token), { name, passwordHash, now: this.clock.now() });
    if (personId === null) throw new LinkNotValid(`This link was used already or is older than ${LINK_DAYS} days. Ask a manager for a new one`);
    return personId;
  }

  async makeLink(personId: string | null): Promise<{ token: string; expiresAt: Date }> {
    const { token, tokenHash } = newToken();
    const createdAt = this.clock.now();
    const expiresAt = addDays(createdAt, LINK_DAYS);
    await this.repository.keep({ tokenHash, personId, createdAt, expiresAt });
    return { token, expiresAt };
  }
}
