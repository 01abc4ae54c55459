import { Conflict, DomainError } from '../../app/index.js';

export class PlanLinesRefused extends DomainError {
  readonly code = 'visits/plan-lines-refused';
  readonly status = 422;
}

export const wasReplaced = (no: number, byNo: number) =>
  new Conflict(`Plan ${no} was replaced by plan ${byNo} meanwhile: look at that one, and plan anew from there`);
