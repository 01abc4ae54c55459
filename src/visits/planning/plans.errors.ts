import { DomainError } from '../../app/index.js';

export class PlanLinesRefused extends DomainError {
  readonly code = 'visits/plan-lines-refused';
  readonly status = 422;
}
