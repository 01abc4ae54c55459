import { DomainError, InvalidRequest } from '../errors/errors.js';

class EditNeedsVersion extends DomainError {
  readonly code = 'edit/version-missing';
  readonly status = 428;
}

export class EditedMeanwhile extends DomainError {
  readonly code = 'edit/edited-meanwhile';
  readonly status = 412;
}

/** The tag of a record's version, for the ETag header. */
export function etagOf(version: number): string {
  return `"${version}"`;
}

/** The version that the caller has seen, from If-Match. An edit without it could undo somebody else's. */
export function versionSeen(ifMatch: string | undefined): number {
  if (ifMatch === undefined) throw new EditNeedsVersion('Send the ETag that you read in the If-Match header, so that nobody else’s change is lost');
  const version = /^"(\d{1,9})"$/.exec(ifMatch)?.[1];
  if (version === undefined) throw new InvalidRequest(`If-Match must be an ETag as read, such as "3", not ${ifMatch}`);
  return Number(version);
}
