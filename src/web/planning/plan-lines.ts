import { type Stay, type Stop, staysOf, type Tour } from './tour-geometry.js';

/** A visit of a plan: what one or more people do at one site in one go. Times are minutes of the day. */
export interface Line {
  /** By which the drawing and the table mean the same */
  readonly no: number;
  readonly key: string;
  readonly day: string;
  readonly stay: Stay;
  readonly people: readonly { readonly id: string; readonly name: string }[];
}

const keyOf = (day: string, stops: readonly Stop[]): string => [day, ...stops.map(({ id }) => id)].join(' ');
export const lineKey = ({ day }: Tour, { stops }: Stay): string => keyOf(day, stops);

/** The visits of a plan in the order of time; where two people go together it is one visit. */
export function linesOf(tours: readonly Tour[]): Line[] {
  const lines = new Map<string, Omit<Line, 'no'>>();
  for (const tour of tours) {
    for (const stay of staysOf(tour)) {
      const key = lineKey(tour, stay);
      const people = [...(lines.get(key)?.people ?? []), { id: tour.personId, name: tour.personName }];
      lines.set(key, { key, day: tour.day, stay, people });
    }
  }
  const inOrder = [...lines.values()].toSorted(
    (one, two) => one.day.localeCompare(two.day) || one.stay.start - two.stay.start || one.key.localeCompare(two.key),
  );
  return inOrder.map((line, at) => ({ ...line, no: at + 1 }));
}
