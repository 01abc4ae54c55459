import { chemicalClass, mustNotMeet } from '../../shared/incompatibility.js';

const ALWAYS = 'Wear gloves, goggles and apron; read the safety data sheet; follow local codes and the maker’s manual.';

const BY_CLASS: Partial<Record<ReturnType<typeof chemicalClass>, string>> = {
  hypochlorite: 'Never bring hypochlorite together with any acid: it gives off chlorine gas. Keep it cool, dark and vented.',
  acid: 'Never bring acid together with hypochlorite: it gives off chlorine gas. Rinse between an acid and a chlorine clean.',
  caustic: 'Caustic burns skin and eyes, and heats when it is diluted: pour it into water, never water into it. Keep it off aluminium and zinc.',
};

/**
 * The usual cautions for whoever handles a chemical, with the other chemicals kept at the same skid that it must not meet.
 *
 * Source: Chlorine Institute, sodium hypochlorite incompatibility chart; the rest common practice. Local codes, the safety data sheet and licensed practice go before them.
 *
 * @example cautionsFor('citric acid', ['sodium hypochlorite'])[1] // => "Kept at the same skid: sodium hypochlorite. If the two meet: chlorine gas, possibly violent."
 */
export function cautionsFor(chemical: string, keptWithIt: readonly string[]): string[] {
  const own = BY_CLASS[chemicalClass(chemical)];
  const meetings = [...new Set(keptWithIt)].flatMap((other) => {
    const danger = mustNotMeet(chemical, other);
    return danger === null ? [] : [`Kept at the same skid: ${other}. If the two meet: ${danger.happens}.`];
  });
  return [...(own === undefined ? [] : [own]), ...meetings, ALWAYS];
}
