import type { Schemas } from '../api/client.js';

type Visit = Pick<Schemas['VisitDetailView'], 'onDay' | 'startTime' | 'minutes' | 'people' | 'state'>;
export type ShiftEntries = Readonly<Record<'onDay' | 'startTime' | 'minutes' | 'tellClient', string>>;
type Change = Schemas['VisitEditDto'];

/** Only what differs from the visit as it is: what is left out stays. Minutes that were emptied are reckoned from the tasks again. */
export function shiftChange(visit: Visit, { onDay, startTime, minutes, tellClient }: ShiftEntries, personIds: readonly string[]): Change {
  const before = visit.people.map(({ personId }) => personId);
  const isSame = before.length === personIds.length && before.every((id) => personIds.includes(id));
  return {
    ...(onDay !== visit.onDay ? { onDay } : {}),
    ...(startTime !== visit.startTime ? { startTime } : {}),
    ...(minutes.trim() !== String(visit.minutes) ? { minutes: minutes.trim() === '' ? null : Number(minutes) } : {}),
    ...(isSame ? {} : { personIds: [...personIds] }),
    ...(movesPromise(visit, { onDay, startTime }) && tellClient.trim() !== '' ? { tellClient: tellClient.trim() } : {}),
  };
}

/** The client was promised another day or time: it is told why. */
export const movesPromise = (visit: Visit, { onDay, startTime }: Pick<ShiftEntries, 'onDay' | 'startTime'>): boolean =>
  visit.state === 'promised' && (onDay !== visit.onDay || startTime !== visit.startTime);

/** Whether it can be sent to the service at all. */
export const isWholeMinutes = (text: string): boolean => text.trim() === '' || /^[1-9]\d{0,4}$/.test(text.trim());
