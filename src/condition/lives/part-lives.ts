import { type EndOfLife, endOfLife } from '../core/end-of-life.js';
import { lifeAt } from '../core/life-at.js';
import { localDays } from '../core/local-day.js';
import type { MachineLife } from '../machine-lives.js';
import type { FittingRow } from './fittings.repository.js';

export interface PartLifeToStore {
  readonly fittingId: string;
  readonly clock: string;
  readonly positionId: string;
  readonly partId: string;
  readonly positionKind: string;
  readonly life: number;
  readonly ended: EndOfLife;
  readonly endedOn: string | null;
}

const DAY_MS = 86_400_000;

/**
 * How long each part has served, in days and by each counter of its place that was read when it was fitted already: what ran before the first reading is not known, and a life without its beginning would
 * look short. A part fitted in the future has not served.
 */
export function partLives(fittings: readonly FittingRow[], machines: readonly MachineLife[], timeZone: string, now: Date): PartLifeToStore[] {
  const dayOf = localDays(timeZone);
  return fittings.flatMap(({ fittingId, positionId, partId, positionKind, fittedAt, removedAt, reason, brokeDown }) => {
    if (fittedAt > now) return [];
    const removed = removedAt !== null && removedAt <= now;
    const until = removed ? removedAt : now;
    const about = { fittingId, positionId, partId, positionKind };
    const ended = { ended: endOfLife({ removed, reason, brokeDown }), endedOn: removed ? dayOf(until.getTime()).day : null };
    const counted = machines.flatMap(({ positionId: place, counter, points }) => {
      const first = points[0];
      if (place !== positionId || first === undefined || first.at > fittedAt) return [];
      return [{ ...about, ...ended, clock: counter as string, life: Math.max(0, lifeAt(points, until) - lifeAt(points, fittedAt)) }];
    });
    return [{ ...about, ...ended, clock: 'days', life: (until.getTime() - fittedAt.getTime()) / DAY_MS }, ...counted];
  });
}
