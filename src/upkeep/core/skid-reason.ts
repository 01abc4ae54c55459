import type { Standing } from '../../shared/standing.js';

/**
 * Why a skid has its standing, in words. A silent skid says so beside whatever is due: what its readings would ask for is not known.
 *
 * @example skidReason({ standing: 'steady', silent: false, lastReadingAt: null, reason: null }) // => "Nothing is due, and no limit is in sight."
 */
export function skidReason(skid: {
  readonly standing: Standing;
  readonly silent: boolean;
  readonly lastReadingAt: Date | string | null;
  readonly reason: string | null;
}): string {
  const silence = skid.lastReadingAt === null ? 'No reading has come in yet.' : 'No reading for too long to say how it is: ask for one, or check the gateway.';
  if (skid.standing === 'no-data') return silence;
  const need = skid.reason ?? 'Nothing is due, and no limit is in sight.';
  return skid.silent ? `${need} ${silence}` : need;
}
