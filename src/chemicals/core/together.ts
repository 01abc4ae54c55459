import { mustNotMeet } from '../../shared/incompatibility.js';

/** How chemicals come together: kept in one tank, carried in one bay of a van, or used one after the other through the same pipes. */
export const WAYS_TOGETHER = ['tank', 'van bay', 'sequence'] as const;
export type WayTogether = (typeof WAYS_TOGETHER)[number];

export interface Meeting {
  readonly one: string;
  readonly other: string;
  readonly happens: string;
}

const RINSE = /^\s*(rinse|flush)/i;

/**
 * What must not come together. In one tank and one bay of a van every chemical meets every other; in a sequence only those between which no rinse stands.
 *
 * Source: `mustNotMeet`.
 *
 * @example meetings('sequence', ['NaOCl', 'rinse', 'citric acid']).length // => 0
 * @example meetings('van bay', ['NaOCl', 'citric acid'])[0].happens // => "chlorine gas, possibly violent"
 */
export function meetings(way: WayTogether, chemicals: readonly string[]): Meeting[] {
  return chemicals.flatMap((one, at) => {
    const after = chemicals.slice(at + 1);
    const rinsed = way === 'sequence' ? after.findIndex((name) => RINSE.test(name)) : -1;
    const met = (rinsed === -1 ? after : after.slice(0, rinsed)).filter((name) => !RINSE.test(name));
    if (RINSE.test(one)) return [];
    return met.flatMap((other) => {
      const danger = mustNotMeet(one, other);
      return danger === null ? [] : [{ one, other, happens: danger.happens }];
    });
  });
}
