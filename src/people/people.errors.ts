import { DomainError } from '../app/index.js';

/** The same for an unknown e-mail address and a wrong password. */
export class WrongEmailOrPassword extends DomainError {
  readonly code = 'people/wrong-email-or-password';
  readonly status = 401;
}

export class TooManyTries extends DomainError {
  readonly code = 'people/too-many-tries';
  readonly status = 429;
}

/** Of an invitation or of the first manager: used, too old, withdrawn, or never given. */
export class LinkNotValid extends DomainError {
  readonly code = 'people/link-not-valid';
  readonly status = 410;
}

/** Without a manager nobody could let anybody in again. */
export class LastManager extends DomainError {
  readonly code = 'people/last-manager';
  readonly status = 409;
}

/** A gateway's key that nobody gave, or not the whole of it. */
export class KeyNotKnown extends DomainError {
  readonly code = 'people/key-not-known';
  readonly status = 401;
}

/** A gateway's key that a manager took back. */
export class KeyWithdrawn extends DomainError {
  readonly code = 'people/key-withdrawn';
  readonly status = 401;
}
