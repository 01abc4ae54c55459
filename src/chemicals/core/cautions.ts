import { cautionsOfChemical, HANDLING, LOCAL_RULES } from '../../shared/cautions.js';
import { mustNotMeet } from '../../shared/incompatibility.js';

/**
 * The usual cautions for whoever handles a chemical, with the other chemicals kept at the same skid that it must not meet.
 *
 * Source: Chlorine Institute, sodium hypochlorite incompatibility chart; the rest common practice. Local codes, the safety data sheet and licensed practice go before them.
 *
 * @example cautionsFor('citric acid', ['sodium hypochlorite'])[1] // => "Kept at the same skid: sodium hypochlorite. If the two meet: chlorine gas, possibly violent."
 */
export function cautionsFor(chemical: string, keptWithIt: readonly string[]): string[] {
  const own = cautionsOfChemical(chemical);
  const meetings = [...new Set(keptWithIt)].flatMap((other) => {
    const danger = mustNotMeet(chemical, other);
    return danger === null ? [] : [`Kept at the same skid: ${other}. If the two meet: ${danger.happens}.`];
  });
  return [...own.map(({ text }) => text), ...meetings, HANDLING.text, LOCAL_RULES.text];
}
