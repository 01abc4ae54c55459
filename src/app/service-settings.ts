import type { MailServer } from './settings.js';

/** What the service must know of the world outside. */
export class ServiceSettings {
  constructor(
    /** The address that people type; undefined: not known, so that no link can be given */
    readonly publicUrl: string | undefined,
    /** Undefined: no mail server is set up */
    readonly mail: MailServer | undefined,
    /** Address of a service that knows the roads; undefined: ways are estimated by distance */
    readonly travelTableUrl: string | undefined,
  ) {}
}
