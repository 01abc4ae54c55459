import { query } from '../api/client.js';
import type { Draft } from './draft.js';
import type { Option } from './sheet-form.js';

const MOST = 200;
const HOUR_MS = 3_600_000;

/** What a part can be: what the sheet plans for, what is fitted now, what lies in the van and the stores, and, with signal, whatever the catalogue holds. */
export function useItemOptions({ sheet, places }: Draft): Option[] {
  const catalogue = query.useQuery('get', '/api/items', { params: { query: { limit: MOST } } }, { staleTime: HOUR_MS, retry: false });
  const known = [...sheet.tasks.flatMap(({ parts, fitted }) => [...parts, ...(fitted === null ? [] : [fitted])]), ...places.flatMap(({ stock }) => stock)];
  const items = [...known, ...(catalogue.data?.items ?? []).map(({ id, name, code }) => ({ itemId: id, name, code }))];
  return [...new Map(items.map(({ itemId, name, code }) => [itemId, { value: itemId, label: `${name} (${code})` }])).values()];
}
