interface Place {
  readonly role: 'manager' | 'storekeeper' | 'technician' | 'client';
  readonly clientId: string | null;
  readonly siteId: string | null;
}

/**
 * What is wrong with where a person belongs: a client's person has a client and may be bound to one site of it; staff see every
 * client and belong to none. Null: nothing is wrong. Whether the site is the client's must be looked up.
 *
 * @example placeProblem({ role: 'technician', clientId: null, siteId: null }) // => null
 */
export function placeProblem({ role, clientId, siteId }: Place): { field: string; message: string } | null {
  if (role === 'client') return clientId === null ? { field: 'clientId', message: 'a client’s person needs the client that they belong to' } : null;
  if (clientId !== null) return { field: 'clientId', message: `a ${role} belongs to no client: leave it out, or give the role client` };
  if (siteId !== null) return { field: 'siteId', message: `a ${role} is bound to no site: leave it out, or give the role client` };
  return null;
}
