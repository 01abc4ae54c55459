import { day, moment } from '../../shared/format.js';
import type { Schemas } from '../api/client.js';
import { startWords } from '../words/start.js';

const said = startWords.said;
type Told = Pick<Schemas['StartSkidView'], 'serviceState' | 'standing' | 'nextTask' | 'nextOn' | 'silent' | 'lastReadingAt' | 'breakdown' | 'kind'>;

/** How a skid is, in the words of somebody who does not know our terms: what is wrong first, then what is needed, then whether we can tell at all. */
export function plainStanding(skid: Told, timeZone: string): string[] {
  const { breakdown, serviceState, silent, lastReadingAt } = skid;
  const silence = lastReadingAt === null ? said.neverRead : said.silentSince(moment(lastReadingAt, timeZone));
  const sentences = [
    breakdown === null ? null : said.breakdown[breakdown],
    serviceState === 'in service' ? null : said.notInService(serviceState),
    needOf(skid),
    silent ? silence : null,
  ].filter((sentence) => sentence !== null);
  return sentences.length > 0 ? sentences : [said.nothing];
}

/** Null where there is nothing to say, or nobody knows. */
function needOf({ standing, nextTask, nextOn, breakdown, serviceState }: Told): string | null {
  if (nextTask !== null && standing === 'overdue') return said.overdue(nextTask, day(nextOn));
  if (nextTask !== null && standing === 'due') return said.due(nextTask, day(nextOn));
  if (standing === 'no-data' || breakdown !== null || serviceState !== 'in service') return null;
  return nextTask === null || nextOn === null ? said.nothing : said.ahead(nextTask, day(nextOn));
}
