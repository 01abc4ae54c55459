import { DomainError } from '../app/index.js';

/** A client's operator or a gateway writes to a site that is not its own. */
export class NotYourSite extends DomainError {
  readonly code = 'intake/not-your-site';
  readonly status = 403;
}

/** Another load of the same skid has not ended in time. */
export class SkidBusy extends DomainError {
  readonly code = 'intake/skid-busy';
  readonly status = 409;
}

/** The file as a whole cannot be read: its packing, its header or its profile is at fault. */
export class UnreadableFile extends DomainError {
  readonly code = 'intake/unreadable-file';
  readonly status = 422;
}

export class FileTooLarge extends DomainError {
  readonly code = 'intake/file-too-large';
  readonly status = 413;
}

/** As many files are being loaded as one instance can. */
export class TooManyLoads extends DomainError {
  readonly code = 'intake/too-many-loads';
  readonly status = 429;
}
