import type { MailServer } from './settings.js';

/** What the service must know of the world outside to write to people. */
export class ServiceSettings {
  constructor(
    /** The address that people type; undefined: not known, so that no link can be given */
    readonly publicUrl: string | undefined,
    /** Undefined: no mail server is set up */
    readonly mail: MailServer | undefined,
  ) {}
}
