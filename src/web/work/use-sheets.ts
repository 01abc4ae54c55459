import { useQuery, useQueryClient } from '@tanstack/react-query';
import { useEffect } from 'react';
import { deviceStore } from '../offline/device-store.js';
import { KEYS } from '../offline/kept-store.js';
import { useSession } from '../session/session.js';
import type { SheetsAhead } from './sheet-types.js';

/** Sheets with the time at which this device fetched them. */
export interface KeptSheets {
  readonly fetchedAt: string;
  readonly sheets: SheetsAhead;
}

const PATIENCE_MS = 20_000;

/** Asks for the sheets of the next seven days and keeps them on the device. Throws what the service answers when it refuses. */
async function fetchSheets(personId: string): Promise<KeptSheets> {
  const answer = await fetch('/api/sheets?days=7', { credentials: 'same-origin', signal: AbortSignal.timeout(PATIENCE_MS) });
  if (!answer.ok) throw await answer.json().catch(() => ({ status: answer.status }));
  const kept: KeptSheets = { fetchedAt: new Date().toISOString(), sheets: (await answer.json()) as SheetsAhead };
  await deviceStore.put([[KEYS.sheets(personId), kept]]);
  return kept;
}

/** The sheets on the device at once, and those of the service as soon as they come. */
export function useSheets() {
  const { id } = useSession();
  const client = useQueryClient();
  const keptKey = ['sheets', 'kept', id];
  const kept = useQuery({
    queryKey: keptKey,
    queryFn: async () => (await deviceStore.get<KeptSheets>(KEYS.sheets(id)).catch(() => undefined)) ?? null,
    staleTime: Number.POSITIVE_INFINITY,
  });
  const fresh = useQuery({ queryKey: ['sheets', 'fresh', id], queryFn: () => fetchSheets(id), refetchOnReconnect: 'always', retry: false });
  useEffect(() => {
    if (fresh.data !== undefined) client.setQueryData(keptKey, fresh.data);
  }, [fresh.data]);
  return {
    found: fresh.data ?? kept.data,
    isLooking: kept.isPending,
    isFetching: fresh.isFetching,
    error: fresh.error,
    fetchAgain: () => void fresh.refetch(),
  };
}
