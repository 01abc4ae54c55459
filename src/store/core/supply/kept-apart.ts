import { chemicalClass, mustNotMeet } from '../../../shared/incompatibility.js';

/** Where chemicals lie side by side: a van's bay, or the shelf of a store. */
const APART = {
  van: 'Carry them in separate bays, each in its own tray',
  other: 'Keep them in separate bunds, so that a leak of one cannot reach the other',
} as const;

/**
 * What lies at one place and must not meet, in words, each danger once: a place is one room, and whether its bays or bunds are apart nobody entered.
 * What is not known by its name is left out where everything else is: a van carries more than chemicals that names tell.
 *
 * Source: `mustNotMeet`; the advice common practice.
 *
 * @example keptApart('van', ['Sodium hypochlorite', 'Citric acid'])[0] // => "Sodium hypochlorite and Citric acid must not meet: chlorine gas, possibly violent. Carry them in separate bays, each in its own tray."
 * @example keptApart('store', ['Sodium hypochlorite', 'Sodium hydroxide']) // => []
 */
export function keptApart(kind: string, chemicals: readonly string[]): string[] {
  const known = chemicals.filter((name) => chemicalClass(name) !== 'unknown');
  const pairs = known.flatMap((one, at) =>
    known.slice(at + 1).flatMap((other) => {
      const danger = mustNotMeet(one, other);
      return danger === null ? [] : [{ one, other, danger }];
    }),
  );
  return pairs
    .filter(({ danger }, at) => pairs.findIndex((pair) => pair.danger === danger) === at)
    .map(({ one, other, danger }) => `${one} and ${other} must not meet: ${danger.happens}. ${kind === 'van' ? APART.van : APART.other}.`);
}
