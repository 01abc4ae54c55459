export const OF_CHLORINE = ['g/L', 'trade %', 'wt % Cl2', 'wt % NaOCl', '% w/v NaOCl'];
export const OF_OTHERS = ['g/L', 'wt %'];

/** Named as the service names them, so that each chemical is offered those that can be meant. */
const isHypochlorite = (chemical: string) => /hypochlor|naocl|bleach/i.test(chemical);

/** What the strength of a chemical can go by. */
export const basesOf = (chemical: string) => (isHypochlorite(chemical) ? OF_CHLORINE : OF_OTHERS).map((value) => ({ value, label: value }));
