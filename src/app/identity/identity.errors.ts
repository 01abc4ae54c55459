import { DomainError } from '../errors/errors.js';

export class NotSignedIn extends DomainError {
  readonly code = 'identity/not-signed-in';
  readonly status = 401;
}

export class NotAllowed extends DomainError {
  readonly code = 'identity/not-allowed';
  readonly status = 403;
}

export class ForeignOrigin extends DomainError {
  readonly code = 'identity/foreign-origin';
  readonly status = 403;
}
