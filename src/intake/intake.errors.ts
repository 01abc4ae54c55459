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
