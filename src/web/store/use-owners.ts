import { query } from '../api/client.js';
import type { Option } from '../ui/choice.js';
import { storeWords } from '../words/store.js';

const MOST = 200;

/** Whose stock can be besides ours: a client's, or a supplier's that is paid for when it is used. */
export function useOwners(enabled: boolean): readonly Option[] {
  const ask = { params: { query: { limit: MOST } } } as const;
  const clients = query.useQuery('get', '/api/clients', ask, { enabled });
  const suppliers = query.useQuery('get', '/api/suppliers', ask, { enabled });
  const of = (kind: 'client' | 'supplier', rows: readonly { readonly id: string; readonly name: string }[] | undefined) =>
    (rows ?? []).map(({ id, name }) => ({ value: `${kind} ${id}`, label: storeWords.post.owners[kind](name) }));
  return [...of('client', clients.data?.items), ...of('supplier', suppliers.data?.items)];
}
