import type { Standing } from '../../shared/standing.js';

/**
 * Why a skid has its standing, in words. A silent skid says so beside whatever is due: what its readings would ask for is not known. One that is not in service is not
 * silent: it is said that nothing is expected of it.
 *
 * @example skidReason({ standing: 'steady', silent: false, lastReadingAt: null, reason: null, serviceState: 'in service' }) // => "Nothing is due, and no limit is in sight."
 * @example skidReason({ standing: 'steady', silent: false, lastReadingAt: null, reason: null, serviceState: 'laid up' }) // => "The skid is laid up: no readings are expected, and forecasts pause."
 */
export function skidReason(skid: {
  readonly standing: Standing;
  readonly silent: boolean;
  readonly lastReadingAt: Date | string | null;
  readonly reason: string | null;
  readonly serviceState: string;
}): string {
  const silence = skid.lastReadingAt === null ? 'No reading has come in yet.' : 'No reading for too long to say how it is: ask for one, or check the gateway.';
  if (skid.standing === 'no-data') return silence;
  const { serviceState } = skid;
  const nothing =
    serviceState === 'in service' ? 'Nothing is due, and no limit is in sight.' : `The skid is ${serviceState}: no readings are expected, and forecasts pause.`;
  const need = skid.reason ?? nothing;
  return skid.silent ? `${need} ${silence}` : need;
}
