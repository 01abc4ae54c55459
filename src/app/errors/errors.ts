/** One field of the request that is at fault. */
export interface FieldProblem {
  /** JSON pointer into the request body, as in `#/sites/0/name`, or the name of a query parameter */
  readonly pointer: string;
  /** What is wrong and how to mend it, with the value seen */
  readonly message: string;
}

/** An expected refusal: the filter turns it into problem+json. */
export abstract class DomainError extends Error {
  abstract readonly code: string;
  abstract readonly status: number;

  constructor(
    message: string,
    readonly fields: readonly FieldProblem[] = [],
  ) {
    super(message);
  }
}

export class NotFound extends DomainError {
  readonly code = 'request/not-found';
  readonly status = 404;

  constructor(what: string, id: string) {
    super(`There is no ${what} ${id}, or it is not yours to see`);
  }
}

export class InvalidRequest extends DomainError {
  readonly code = 'request/invalid';
  readonly status = 400;
}

/** One field at fault, where what is wrong only shows when other records are seen. */
export const faultIn = (field: string, message: string) =>
  new InvalidRequest('The request has fields that need a change', [{ pointer: `#/${field}`, message }]);

/** A value that another record has already, or that contradicts what is stored. */
export class Conflict extends DomainError {
  readonly code = 'request/conflict';
  readonly status = 409;
}
