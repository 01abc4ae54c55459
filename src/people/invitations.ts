import { Injectable } from '@nestjs/common';
import { addDays } from 'date-fns/addDays';
import { Clock } from '../app/index.js';
import { dayInWords } from '../shared/day.js';
import { type InvitationRow, InvitationsRepository } from './invitations.repository.js';
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

  /** For whom the link is, before they choose a password. */
  async look(token: string): Promise<{ name: string; expiresAt: Date }> {
    const invitation = await this.repository.find(hashOfToken(token));
    if (invitation?.person == null || invitation.usedAt !== null || invitation.person.endedAt !== null || invitation.expiresAt <= this.clock.now()) {
      throw notValid(invitation);
    }
    return { name: invitation.person.name, expiresAt: invitation.expiresAt };
  }

  /** Takes the open link of the person back. */
  withdraw(personId: string): Promise<void> {
    return this.repository.withdraw(personId);
  }

  /** Answers with the id of the person who may now sign in. */
  async accept(token: string, { name, password }: { name?: string; password: string }): Promise<string> {
    const passwordHash = await hashPassword(password);
    const personId = await this.repository.setPassword(hashOfToken(token), { name, passwordHash, now: this.clock.now() });
    if (personId === null) throw notValid(await this.repository.find(hashOfToken(token)));
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

/** Whoever holds the link may know what became of it. */
function notValid(invitation: InvitationRow | null): LinkNotValid {
  const onDay = (at: Date) => dayInWords(at.toISOString().slice(0, 10), '');
  if (invitation === null) {
    return new LinkNotValid(
      'This link is not known: part of it may be missing, a newer one may have taken its place, or it was withdrawn. Ask a manager for a new one',
    );
  }
  if (invitation.usedAt !== null) {
    return new LinkNotValid(
      `This link was used on ${onDay(invitation.usedAt)}. Sign in with your e-mail address and password, or ask a manager for a new link`,
    );
  }
  const { expiresAt } = invitation;
  return new LinkNotValid(`This link was good for ${LINK_DAYS} days, until ${onDay(expiresAt)}. Ask a manager for a new one; nothing else is lost`);
}
