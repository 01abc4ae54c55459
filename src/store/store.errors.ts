import { DomainError } from '../app/index.js';

export class PostIdUsed extends DomainError {
  readonly code = 'store/post-id-used';
  readonly status = 422;
}

export class NotOnHand extends DomainError {
  readonly code = 'store/not-on-hand';
  readonly status = 422;
}
