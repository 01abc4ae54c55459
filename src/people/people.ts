import { Injectable } from '@nestjs/common';
import { Clock, faultIn, given, InvalidRequest, NotFound, type PageOf, toPageBy, viewOf } from '../app/index.js';
import { placeProblem } from './core/place-of-person.js';
import { Invitations } from './invitations.js';
import { InvitationView, type PeopleQuery, type PersonDto, type PersonEditDto, type PersonRole, PersonView } from './people.dto.js';
import { PeopleRepository, type PersonColumns, type PersonRow } from './people.repository.js';

/** Who works with the service, and for whom. */
@Injectable()
export class People {
  constructor(
    private readonly repository: PeopleRepository,
    private readonly invitations: Invitations,
    private readonly clock: Clock,
  ) {}

  async list(query: PeopleQuery): Promise<PageOf<PersonView>> {
    return toPageBy('name', await this.repository.list(query), query.limit, toView);
  }

  async read(id: string): Promise<PersonView> {
    return toView(await this.find(id));
  }

  /** Somebody new, who sets a password through the link that is answered. */
  async create(input: PersonDto): Promise<InvitationView> {
    return this.invited(await this.repository.create(await this.placed(columnsOf(input))));
  }

  /** A new link for somebody who lost the first one, or the password. */
  async invite(id: string): Promise<InvitationView> {
    const person = await this.find(id);
    if (person.endedAt !== null) throw new InvalidRequest('This person has ended and cannot be invited');
    return this.invited(person);
  }

  async withdrawInvitation(id: string): Promise<void> {
    await this.find(id);
    await this.invitations.withdraw(id);
  }

  async edit(id: string, version: number, change: PersonEditDto): Promise<PersonView> {
    const before = columnsOf(await this.find(id));
    return toView(await this.repository.edit(id, version, await this.placed({ ...before, ...given(change) })));
  }

  async end(id: string, version: number): Promise<void> {
    await this.find(id);
    await this.repository.end(id, version, this.clock.now());
  }

  private async find(id: string): Promise<PersonRow> {
    const person = await this.repository.find(id);
    if (person === null) throw new NotFound('person', id);
    return person;
  }

  private async invited(person: PersonRow): Promise<InvitationView> {
    const link = await this.invitations.invite(person.id);
    return viewOf(InvitationView, { person: toView({ ...person, invitations: [{ expiresAt: link.expiresAt }] }), ...link });
  }

  private async placed(person: PersonColumns): Promise<PersonColumns> {
    const problem = placeProblem(person);
    if (problem !== null) throw faultIn(problem.field, problem.message);
    const { clientId, siteId } = person;
    if (clientId !== null && siteId !== null && !(await this.repository.isSiteOf(siteId, clientId))) {
      throw faultIn('siteId', 'this client has no such site');
    }
    return person;
  }
}

function columnsOf({ name, email, role, clientId, siteId, mayEnterReadings }: PersonDto | PersonRow): PersonColumns {
  return { name, email, role: role as PersonRole, clientId: clientId ?? null, siteId: siteId ?? null, mayEnterReadings: mayEnterReadings ?? false };
}

function toView(person: PersonRow): PersonView {
  const { id, name, email, clientId, siteId, mayEnterReadings, endedAt, version } = person;
  return viewOf(PersonView, {
    id,
    name,
    email,
    role: person.role as PersonRole,
    clientId,
    clientName: person.client?.name ?? null,
    siteId,
    siteName: person.site?.name ?? null,
    mayEnterReadings,
    hasPassword: person.passwordHash !== null,
    invitedUntil: person.invitations[0]?.expiresAt ?? null,
    endedAt,
    version,
  });
}
