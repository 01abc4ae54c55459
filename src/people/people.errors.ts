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

/** Of an invitation or of the first manager: used, too old, or never given. */
export class LinkNotValid extends DomainError {
  readonly code = 'people/link-not-valid';
  readonly status = 410;
}

/** Without a manager nobody could let anybody in again. */
export class LastManager extends DomainError {
  readonly code = 'people/last-manager';
  readonly status = 409;
}
