import { group } from 'd3-array';
import { learnFleet } from '../../outlook/core/clogging/fleet.js';
import type { CameTrue } from '../../outlook/core/record/calibration.js';
import { stretchesOf } from '../../outlook/core/record/stretches.js';
import { type KeptLife, type LearnedFleet, MOST_LIVES, MOST_OF_PLACE, toEarlierLife } from '../../outlook/core/skid/kept-life.js';
import { learnMembranes, type MembraneRecord, taughtBy } from '../../outlook/core/skid/learned-membranes.js';
import type { Learned } from '../../outlook/core/skid/outlooks-of-skid.js';

/** A forecast of the record, and the day on which it came true. */
export interface PastOutlook extends CameTrue {
  readonly model: string;
  readonly metMs: number;
}

/** What the service would have learned by a day: from the records until then, from sets that were out by then, and from forecasts that had come true. */
export function learnedBy(ms: number, day: string, records: readonly MembraneRecord[], lives: readonly KeptLife[], past: readonly PastOutlook[]): Learned {
  const out = lives.filter(({ endedOn }) => endedOn <= day);
  const fleets = new Map(
    [...group(out, ({ itemId }) => itemId)].map(([item, own]): [string, LearnedFleet] => [
      item,
      { fleet: learnFleet(latest(own).map(toEarlierLife)), at: new Date(ms) },
    ]),
  );
  const until = records.map((one) => ({ ...one, days: one.days.filter((known) => known.day < day), cleans: one.cleans.filter((clean) => clean < day) }));
  return { fleets, membranes: learnMembranes(until.map(taughtBy), new Date(ms)), stretchFor: stretchesOf(past.filter(({ metMs }) => metMs <= ms)) };
}

/** The lives that are learned from, chosen as the service does: a few of each place, those that ended at the limit first, then the latest. */
function latest(lives: readonly KeptLife[]): KeptLife[] {
  const newest = (one: KeptLife, other: KeptLife) => (one.endedOn < other.endedOn ? 1 : one.endedOn > other.endedOn ? -1 : 0);
  const few = [...group([...lives].sort(newest), ({ positionId }) => positionId).values()].flatMap((own) => own.slice(0, MOST_OF_PLACE));
  return few.sort((one, other) => Number(other.ended === 'limit') - Number(one.ended === 'limit') || newest(one, other)).slice(0, MOST_LIVES);
}
