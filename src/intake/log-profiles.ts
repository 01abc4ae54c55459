import { Injectable } from '@nestjs/common';
import { type Caller, EditedMeanwhile, InvalidRequest, NotFound, readIdCursor, toPage, viewOf } from '../app/index.js';
import { faultsOfProfile } from './core/check-profile.js';
import type { LogProfileDefinition, ProfileKind } from './core/log-profile.js';
import { type CreateProfileDto, type EditProfileDto, type ProfileDefinitionDto, ProfilePageView, type ProfileQuery, ProfileView } from './log-profiles.dto.js';
import { LogProfilesRepository, type ProfileRow } from './repositories/log-profiles.repository.js';
import { SkidsRepository } from './repositories/skids.repository.js';
import { SkidAccess } from './skid-access.js';

/** How the exports of each plant are to be read. */
@Injectable()
export class LogProfiles {
  constructor(
    private readonly access: SkidAccess,
    private readonly skids: SkidsRepository,
    private readonly profiles: LogProfilesRepository,
  ) {}

  async list(caller: Caller, { skidId, limit, cursor }: ProfileQuery): Promise<ProfilePageView> {
    await this.access.toRead(caller, skidId);
    const rows = await this.profiles.list(skidId, readIdCursor(cursor), limit + 1);
    return viewOf(
      ProfilePageView,
      toPage(rows, limit, toView, ({ id }) => [id]),
    );
  }

  async read(id: string): Promise<ProfileView> {
    return toView(await this.find(id));
  }

  async create(caller: Caller, { skidId, name, kind, definition }: CreateProfileDto): Promise<ProfileView> {
    await this.access.toWrite(caller, skidId);
    await this.check(kind, definition, skidId);
    return toView(await this.profiles.create({ skidId, name, kind, definition }));
  }

  async edit(id: string, version: number, { name, definition }: EditProfileDto): Promise<ProfileView> {
    const { kind, skidId } = await this.find(id);
    await this.check(kind as ProfileKind, definition, skidId);
    const edited = await this.profiles.edit(id, version, { name, definition });
    if (edited === null) throw new EditedMeanwhile('The profile was edited after you read it. Read it again, and make your change to that');
    return toView(edited);
  }

  /** The definition of a profile of this skid for this kind of file. */
  async definitionFor(skidId: string, profileId: string, kind: ProfileKind): Promise<LogProfileDefinition> {
    const profile = await this.find(profileId);
    if (profile.skidId !== skidId || profile.kind !== kind) {
      const message = `${profile.name} is a profile for ${profile.kind}${profile.skidId === skidId ? '' : ' of another skid'}, not for ${kind} of this one`;
      throw new InvalidRequest('The profile does not fit the file', [{ pointer: 'profileId', message }]);
    }
    return profile.definition as unknown as LogProfileDefinition;
  }

  private async find(id: string): Promise<ProfileRow> {
    const profile = await this.profiles.find(id);
    if (profile === null) throw new NotFound('log profile', id);
    return profile;
  }

  private async check(kind: ProfileKind, definition: LogProfileDefinition, skidId: string): Promise<void> {
    const faults = faultsOfProfile(kind, definition, await this.skids.machinesOf(skidId));
    const fields = faults.map(({ pointer, message }) => ({ pointer: `#/definition/${pointer}`, message }));
    if (fields.length > 0) throw new InvalidRequest('With this profile no file could be read', fields);
  }
}

function toView({ id, skidId, name, kind, definition, version }: ProfileRow): ProfileView {
  return viewOf(ProfileView, { id, skidId, name, kind: kind as ProfileKind, definition: definition as unknown as ProfileDefinitionDto, version });
}
