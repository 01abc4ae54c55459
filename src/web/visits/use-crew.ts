import { query } from '../api/client.js';
import { addDays } from '../site-time.js';
import { visitWords } from '../words/visits.js';
import { useVisitsBetween, type Visit } from './use-visits.js';
import { endOfVisit } from './week.js';

export interface CrewMember {
  readonly id: string;
  readonly name: string;
  readonly busyMinutes: number;
  /** What they have to do that day, in words */
  readonly busy: string;
}

const LOOK_BACK_DAYS = 400;

/** Everybody who can be sent, with what else they do on a day; undefined while it is on its way. The visit that is being shifted is not something else. */
export function useCrew(onDay: string, exceptVisitId?: string): readonly CrewMember[] | undefined {
  const staff = query.useQuery('get', '/api/staff');
  const isDay = /^\d{4}-\d\d-\d\d$/.test(onDay);
  const visits = useVisitsBetween(onDay, onDay, isDay);
  if (staff.data === undefined || (isDay && visits.data === undefined)) return undefined;
  const others = (visits.data ?? []).filter(({ id, state }) => id !== exceptVisitId && state !== 'called off');
  const ofRole = (wanted: string) => (staff.data ?? []).filter(({ role }) => role === wanted);
  return [...ofRole('technician'), ...ofRole('manager')].map(({ id, name }) => {
    const own = others.filter(({ people }) => people.some(({ personId }) => personId === id));
    const said = own.map((visit) => visitWords.busyAt(visit.startTime, endOfVisit(visit), visit.siteName));
    return { id, name, busyMinutes: own.reduce((sum, visit) => sum + visit.minutes, 0), busy: said.length === 0 ? visitWords.free : said.join('; ') };
  });
}

/** Who went to a site last; undefined while it is on its way. */
export function useLastThere(siteId: string | undefined, today: string): readonly string[] | undefined {
  const visits = query.useQuery(
    'get',
    '/api/visits',
    { params: { query: { siteId: siteId ?? '', from: addDays(today, -LOOK_BACK_DAYS), to: today, limit: 200 } } },
    { enabled: siteId !== undefined },
  );
  const isGone = ({ state }: Visit) => state !== 'called off';
  return visits.data?.items.findLast(isGone)?.people.map(({ personId }) => personId) ?? (visits.data === undefined ? undefined : []);
}
