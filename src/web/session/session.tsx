import { useQuery } from '@tanstack/react-query';
import { createContext, useContext } from 'react';
import { api, type Schemas } from '../api/client.js';

export type Session = Schemas['SessionView'];
export const SESSION_KEY = ['session'] as const;

/** Who is signed in; null: nobody. */
export const useSessionQuery = () =>
  useQuery({
    queryKey: SESSION_KEY,
    queryFn: async (): Promise<Session | null> => {
      const { data, error, response } = await api.GET('/api/session');
      if (response.status === 401) return null;
      if (data === undefined) throw error;
      return data;
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
    seeChemicals: role === 'manager' || role === 'storekeeper',
    loadLogs: field,
    enterReadings: field || (role === 'client' && mayEnterReadings),
    enterDips: staff || mayEnterReadings,
    manage: role === 'manager',
  };
}
