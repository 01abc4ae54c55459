import type { EarlierLife } from '../clogging/course.js';
import type { Fleet } from '../clogging/fleet.js';

/** The life of a cartridge set that is out again, as the fleet keeps it. */
export interface KeptLife {
  readonly positionId: string;
  readonly partId: string;
  readonly itemId: string;
  readonly place: number;
  readonly life: number;
  readonly ended: 'limit' | 'censored';
  readonly endedOn: string;
  readonly clock: readonly number[];
  readonly level: readonly number[];
}

export interface LearnedFleet {
  readonly fleet: Fleet;
  readonly at: Date;
}

/** A fleet teaches little more by further lives, and learning takes its time: each is forecast from the others. */
export const MOST_LIVES = 16;
/** Of one place no more than these, so that a fleet is not one skid */
export const MOST_OF_PLACE = 4;

/** A kept life as the model takes it: one condition a place, one group an item. */
export const toEarlierLife = ({ positionId, partId, itemId, place, life, ended, clock, level }: KeptLife): EarlierLife => ({
  key: `${positionId} ${partId}`,
  condition: positionId,
  group: itemId,
  life,
  ended,
  order: place,
  lnStrength: null,
  course: { clock, level },
});
