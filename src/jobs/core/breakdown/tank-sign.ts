import { figure } from '../../../shared/figure.js';
import type { Sign } from './sign.js';

/** A tank that may last for fewer days than this cannot wait for the next round. Common practice. */
const LEAST_COVER_DAYS = 3;

export interface TankToday {
  readonly id: string;
  readonly name: string;
  readonly chemical: string;
  /** Dosed into the water all the time */
  readonly dosed: boolean;
  /** Days that it lasts at the least; `null`: not known */
  readonly earlyDays: number | null;
}

/** The words by which the breakdown of a tank is found again. */
export const signOfTank = (tankId: string): string => `tank ${tankId}`;

/**
 * A tank may run out within three days. What is dosed all the time stops or slows the skid when it ends (less water); what only serves cleans can wait, for cleans can
 * be put off by days. Over once the tank lasts longer; `null` where its cover is not known.
 *
 * Source: common practice.
 *
 * @example tankSign({ id: 'a', name: 'T1', chemical: 'NaOCl', dosed: true, earlyDays: 1.5 }, new Date('2025-11-03T08:00:00Z')).severity // => "less water"
 */
export function tankSign({ id, name, chemical, dosed, earlyDays }: TankToday, now: Date): Sign | null {
  const sign = signOfTank(id);
  if (earlyDays === null) return null;
  if (earlyDays >= LEAST_COVER_DAYS) return { kind: 'over', sign, since: now };
  const why = dosed
    ? `${chemical} is dosed all the time: without it the skid has to stop or to filter less`
    : `${chemical} serves cleans alone, which can be put off for some days`;
  const lasts = earlyDays <= 0 ? 'may be empty' : `may last for ${figure(earlyDays)} days`;
  return {
    kind: 'shown',
    sign,
    severity: dosed ? 'less water' : 'can wait',
    title: `${name} runs out`,
    request: `${name} ${lasts}, and fewer than ${LEAST_COVER_DAYS} are left for a delivery. ${why}.`,
    noticedAt: now,
    downFrom: null,
  };
}
