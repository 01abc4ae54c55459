import { useQuery } from '@tanstack/react-query';
import { api, type Schemas } from '../api/client.js';

export type Visit = Schemas['VisitView'];

const MOST = 200;

/** Every visit of some days, however many pages the service makes of them. */
export function useVisitsBetween(from: string, to: string, isWanted = true) {
  return useQuery({
    queryKey: ['get', '/api/visits', 'between', from, to],
    enabled: isWanted,
    placeholderData: (before: readonly Visit[] | undefined) => before,
    queryFn: async (): Promise<readonly Visit[]> => {
      const visits: Visit[] = [];
      let cursor: string | null | undefined;
      do {
        const more = cursor === undefined || cursor === null ? {} : { cursor };
        const { data, error } = await api.GET('/api/visits', { params: { query: { from, to, limit: MOST, ...more } } });
        if (data === undefined) throw error;
        visits.push(...data.items);
        cursor = data.next;
      } while (cursor !== null);
      return visits;
    },
  });
}
