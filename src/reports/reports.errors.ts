import { DomainError } from '../app/index.js';

export class ReportsBusy extends DomainError {
  readonly code = 'reports/busy';
  readonly status = 429;

  constructor() {
    super('As many reports are being made as this service can; ask again in a minute');
  }
}

/** The thread that draws it hung or ended; it has been replaced. */
export class ReportNotMade extends DomainError {
  readonly code = 'reports/not-made';
  readonly status = 503;

  constructor(tooLong: boolean) {
    super(
      tooLong
        ? 'The report was not ready in time; ask again, or for a shorter period'
        : 'The report could not be drawn; the records are safe. Ask again, or for a shorter period',
    );
  }
}
