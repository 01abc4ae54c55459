import type { Schemas } from '../api/client.js';
import { type Stay, type Stop, staysOf, type Tour } from './drawing/tour-geometry.js';

/** A visit of a plan with the number by which the drawing and the table mean the same. */
export type Line = Schemas['PlanLineView'] & { readonly no: number };

/** In the order of the plan. */
export const numbered = (lines: readonly Schemas['PlanLineView'][]): Line[] => lines.map((line, at) => ({ ...line, no: at + 1 }));

/** The line that holds a stop of a tour. */
const lineOfStop = (lines: readonly Line[], { personId, day }: Tour, { id }: Stop): Line | undefined =>
  lines.find((line) => line.day === day && line.people.some((person) => person.personId === personId) && line.work.some((work) => work.id === id));

/** What a tour does for each line of the plan; two lines at one site stay apart. */
export const staysByLine = (tour: Tour, lines: readonly Line[]): Stay[] => staysOf(tour, (stop) => lineOfStop(lines, tour, stop)?.id ?? stop.siteId);

/** Taking it over makes or shifts a visit, and that was not done yet. */
export const isToAccept = ({ change, accepted }: Line): boolean => change !== 'stays' && accepted === null;

export const namesOf = (people: Line['people']): string => people.map(({ name }) => name).join(', ');
