import { Injectable } from '@nestjs/common';
import { Clock } from '../app/index.js';
import { Invitations } from './invitations.js';
import { InvitationsRepository } from './invitations.repository.js';
import { hashPassword } from './passwords.js';
import { LinkNotValid } from './people.errors.js';
import type { FirstManagerDto } from './session.dto.js';
import { hashOfToken } from './tokens.js';

/** The first account of an empty service. Whoever can read what the service prints may make it. */
@Injectable()
export class FirstManager {
  constructor(
    private readonly repository: InvitationsRepository,
    private readonly invitations: Invitations,
    private readonly clock: Clock,
  ) {}

  /** The path of a one-time link to make the first account; null when somebody has one already. */
  async linkIfNeeded(): Promise<string | null> {
    if (await this.repository.isAnybodyThere()) return null;
    const { token } = await this.invitations.makeLink(null);
    return `/first-manager?token=${token}`;
  }

  /** Answers with the id of the new manager. */
  async create({ token, name, email, password }: FirstManagerDto): Promise<string> {
    const passwordHash = await hashPassword(password);
    const id = await this.repository.makeFirstManager(hashOfToken(token), { name, email, passwordHash }, this.clock.now());
    if (id === null) throw new LinkNotValid('This link is not valid any more. While nobody has an account, the service prints a new one each time it starts');
    return id;
  }
}
