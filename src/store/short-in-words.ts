import type { PassedOver } from './core/pick-lines.js';
import type { Posted, ShortLine } from './ledger-post.js';
import { NotOnHand } from './store.errors.js';

const MEND: Readonly<Record<PassedOver, string>> = {
  expired: 'past the expiry (say why it may be taken: expiredReason)',
  held: 'of lots that are held (release the lot first)',
  'under serial numbers': 'under serial numbers (say which part)',
  'of others': 'of other owners (say whose)',
};

/** Refuses a post for which something is not there: what is, what lies there besides, and how to mend it. */
export function refuseShort(posted: Posted, pointerOf: (move: number) => string = (move) => `#/moves/${move}/quantity`): void {
  if (posted.kind !== 'short') return;
  const problems = posted.lines.flatMap((line) => line.moves.map((at) => ({ pointer: pointerOf(at), message: inWords(line) })));
  throw new NotOnHand('Stock would go below zero; nothing was moved', problems);
}

function inWords({ placeName, onHand, itemCode, lot, asked, passedOver = {} }: ShortLine): string {
  const besides = (Object.entries(passedOver) as [PassedOver, string][]).map(([why, quantity]) => `${quantity} ${MEND[why]}`);
  const more = besides.length === 0 ? '' : ` Besides, there are ${besides.join(', and ')}.`;
  return `${placeName} holds ${onHand} of ${itemCode}${lot === null ? '' : `, lot ${lot}`}, and ${asked} are asked for.${more} Ask for less, or say that the count was wrong (countWasWrong)`;
}
