export const ROLES = ['manager', 'storekeeper', 'technician', 'client', 'gateway'] as const;
export type Role = (typeof ROLES)[number];

/** Who sends a request: a person who signed in, or a gateway with its key. */
export interface Caller {
  readonly id: string;
  readonly name: string;
  readonly role: Role;
  /** Of a client's person: whose rows may be seen. Null for staff. */
  readonly clientId: string | null;
  /** Of a gateway or a client's operator: the only site that may be written to */
  readonly siteId: string | null;
  readonly mayEnterReadings: boolean;
}

/** Finds out who sends a request. The stage that knows people provides it. */
export abstract class CallerSource {
  /** Null: nobody whom we know. */
  abstract find(request: { sessionToken: string | undefined; bearer: string | undefined }): Promise<Caller | null>;
}
