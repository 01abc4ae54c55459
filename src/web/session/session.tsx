import { useQuery } from '@tanstack/react-query';
import { createContext, useContext } from 'react';
import { api, type Schemas } from '../api/client.js';
import { forgetSession, keptSession } from '../offline/kept-session.js';

export type Session = Schemas['SessionView'];
export const SESSION_KEY = ['session'] as const;

/** Who is signed in; null: nobody. Where nobody answers, the one whom the device last knew: without signal there is work to be done as well. */
export const useSessionQuery = () =>
  useQuery({
    queryKey: SESSION_KEY,
    refetchOnReconnect: 'always',
    queryFn: async (): Promise<Session | null> => {
      const asked = await api.GET('/api/session').catch(() => undefined);
      if (asked?.response.status === 401) {
        await forgetSession();
        return null;
      }
      if (asked?.data !== undefined) return asked.data;
      const kept = asked === undefined || asked.response.status >= 500 ? await keptSession() : null;
      if (kept === null) throw asked?.error ?? new TypeError('no answer');
      return kept;
    },
  });

export const SessionContext = createContext<Session | null>(null);

/** The person who is signed in. Only inside the pages that need one. */
export function useSession(): Session {
  const session = useContext(SessionContext);
  if (session === null) throw new Error('A page that needs a person is shown to nobody');
  return session;
}

/** What each role finds in the pages; the service itself refuses what it must. */
export function useMay() {
  const { role, mayEnterReadings } = useSession();
  const staff = role !== 'client';
  const field = role === 'manager' || role === 'technician';
  return {
    seeUpkeep: staff,
    seeWork: staff,
    seeChemicals: role === 'manager' || role === 'storekeeper',
    keepStore: role === 'manager' || role === 'storekeeper',
    loadLogs: field,
    doWork: field,
    enterReadings: field || (role === 'client' && mayEnterReadings),
    enterDips: staff || mayEnterReadings,
    manage: role === 'manager',
  };
}
