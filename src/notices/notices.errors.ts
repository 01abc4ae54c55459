import { DomainError } from '../app/index.js';

/** Never given, or withdrawn: which of the two is not told. The address itself is not repeated, since it is a secret. */
export class NoSuchCalendar extends DomainError {
  readonly code = 'notices/no-such-calendar';
  readonly status = 404;
}
