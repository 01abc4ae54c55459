import { DomainError } from '../../app/index.js';

export class TableNotComplete extends DomainError {
  readonly code = 'store/table-not-complete';
  readonly status = 422;
}
