import { DomainError } from '../app/index.js';

export class AttachmentTooLarge extends DomainError {
  readonly code = 'attachments/too-large';
  readonly status = 413;
}

/** Neither a photograph nor a document of a kind that is kept. */
export class NotKept extends DomainError {
  readonly code = 'attachments/not-kept';
  readonly status = 422;
}

/** The id was used for another file, or for another record. */
export class IdTaken extends DomainError {
  readonly code = 'attachments/id-taken';
  readonly status = 409;
}

/** As many files as a record may have. */
export class TooMany extends DomainError {
  readonly code = 'attachments/too-many';
  readonly status = 409;
}
