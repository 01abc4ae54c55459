import { query } from '../api/client.js';

/** All places that have not ended: there are few enough to choose from a list. */
export function usePlaces() {
  const { data } = query.useQuery('get', '/api/places', { params: { query: { limit: 200 } } });
  return data?.items ?? [];
}

export const placeOptions = (places: readonly { readonly id: string; readonly name: string }[]) => places.map(({ id, name }) => ({ value: id, label: name }));
