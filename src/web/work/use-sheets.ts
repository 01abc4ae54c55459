import { useQuery, useQueryClient } from '@tanstack/react-query';
import { useEffect } from 'react';
import { deviceStore } from '../offline/device-store.js';
import { KEYS } from '../offline/kept-store.js';
import { useSession } from '../session/session.js';
import type { Sheet, SheetsAhead } from './sheet-types.js';

/** Sheets with the time at which this device fetched them. */
export interface KeptSheets {
  readonly fetchedAt: string;
  readonly sheets: SheetsAhead;
}

const PATIENCE_MS = 20_000;

/** Throws what the service answers when it refuses. */
async function ask<T>(path: string): Promise<T> {
  const answer = await fetch(path, { credentials: 'same-origin', signal: AbortSignal.timeout(PATIENCE_MS) });
  if (!answer.ok) throw await answer.json().catch(() => ({ status: answer.status }));
  return (await answer.json()) as T;
}

/** Asks for the sheets of the next seven days and keeps them on the device. */
async function fetchSheets(personId: string): Promise<KeptSheets> {
  const sheets = await ask<SheetsAhead>('/api/sheets?days=7');
  const kept: KeptSheets = { fetchedAt: new Date().toISOString(), sheets };
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

/** The sheet of a job that is in no visit of these days; it takes signal to open it. */
export function useSheetElsewhere(jobId: string, isWanted: boolean) {
  return useQuery({
    queryKey: ['sheets', 'of job', jobId],
    queryFn: () => ask<Sheet>(`/api/jobs/${encodeURIComponent(jobId)}/sheet`),
    enabled: isWanted,
    retry: false,
  });
}

/** Fetches ahead wherever the pages are opened, for those who go out. */
export function FetchAhead() {
  useSheets();
  return null;
}
