import type { Schemas } from '../api/client.js';
import { day, number } from '../format.js';
import { outlookWords as said } from '../words/outlooks.js';

type Limit = Schemas['LimitOfPartView'];

/** Each of the limits that make the forecast of a module together: when it comes by itself, and what is on record of it. */
export function LimitsOfPart({ limits }: { limits: readonly Limit[] }) {
  return (
    <ul className="plain">
      {limits.map((limit) => (
        <li key={limit.limit}>
          <small>
            <b>{said.limitOfPart(said.ofModule[limit.limit], whenOf(limit))}</b> {limit.said}
          </small>
        </li>
      ))}
    </ul>
  );
}

function whenOf({ kind, counts, first, p10On, p50On, p90On }: Limit): string {
  if (kind === 'limit-met') return said.met;
  if (kind === 'too-little-data') return said.notKnown;
  const on = (at: string | null) => (at === null ? said.beyond : day(at));
  const when = p10On === null ? said.beyond : said.likelyOn(on(p50On), on(p10On), on(p90On));
  const share = Math.round(10 * first);
  return [when, ...(counts ? [] : [said.notCounted]), ...(share > 0 && share < 10 ? [said.first(number(share))] : [])].join(', ');
}
