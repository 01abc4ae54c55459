import { DomainError } from '../app/index.js';

export class SheetNotComplete extends DomainError {
  readonly code = 'jobs/sheet-not-complete';
  readonly status = 422;
}

export class ReportIdUsed extends DomainError {
  readonly code = 'jobs/sheet-id-used';
  readonly status = 409;
}
